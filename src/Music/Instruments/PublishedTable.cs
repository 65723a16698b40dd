namespace Harkbook.Music.Instruments;

/// <summary>Rows of a table as those in data/ are written: tab-separated, "#" starts a remark.</summary>
internal static class PublishedTable
{
    /// <summary>Rows of a table that was built into this assembly.</summary>
    public static IEnumerable<string[]> Rows(string name)
    {
        using var stream = typeof(PublishedTable).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The table {name} is not in the assembly; the project file must embed data/{name}.");
        using var reader = new StreamReader(stream);
        foreach (var row in RowsOf(reader))
            yield return row;
    }

    public static IEnumerable<string[]> RowsOf(TextReader reader)
    {
        while (reader.ReadLine() is { } line)
        {
            if (line.Length > 0 && line[0] != '#')
                yield return line.Split('\t');
        }
    }
}
