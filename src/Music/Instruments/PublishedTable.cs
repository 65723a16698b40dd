namespace Harkbook.Music.Instruments;

/// <summary>Rows of a table in data/ that was built into this assembly: tab-separated, "#" starts a remark.</summary>
internal static class PublishedTable
{
    public static IEnumerable<string[]> Rows(string name)
    {
        using var stream = typeof(PublishedTable).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The table {name} is not in the assembly; the project file must embed data/{name}.");
        using var reader = new StreamReader(stream);
        while (reader.ReadLine() is { } line)
        {
            if (line.Length > 0 && line[0] != '#')
                yield return line.Split('\t');
        }
    }
}
