namespace Harkbook.App.Tests.House;

/// <summary>No line of code is wider than a screen shows beside another; text in raw strings is as wide as it is.</summary>
public class WidthTests
{
    private const int Widest = 160;

    [Theory]
    [InlineData("src")]
    [InlineData("tests")]
    public void LinesAreNoWiderThanAScreenShows(string folder)
    {
        var sources = Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*.cs", SearchOption.AllDirectories)
            .Where(file => !file.Split(Path.DirectorySeparatorChar).Any(part => part is "bin" or "obj"));
        var wide = sources.SelectMany(file => Code(File.ReadLines(file)).Where(line => line.Text.Length > Widest)
            .Select(line => $"{Path.GetRelativePath(Repository.Root, file)}:{line.Number}")).ToArray();
        Assert.True(wide.Length == 0, string.Join('\n', wide));
    }

    /// <summary>Three lines of code, two of a raw string.</summary>
    [Fact]
    public void TextInRawStringsIsNoCode() =>
        Assert.Equal([1, 4, 5], Code(["var a = \"\"\"", "  words", "  more", "  \"\"\";", "var b = 1;"]).Select(line => line.Number));

    private static IEnumerable<(int Number, string Text)> Code(IEnumerable<string> lines)
    {
        string? raw = null;
        foreach (var (text, index) in lines.Select((l, i) => (l, i)))
        {
            if (raw is not null && !text.TrimStart().StartsWith(raw, StringComparison.Ordinal))
                continue;
            yield return (index + 1, text);
            var quotes = text.AsSpan().TrimEnd().Length - text.AsSpan().TrimEnd().TrimEnd('"').Length;
            raw = raw is null && quotes >= 3 ? new('"', quotes) : null;
        }
    }
}
