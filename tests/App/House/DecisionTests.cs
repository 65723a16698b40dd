using System.Text.RegularExpressions;

namespace Harkbook.App.Tests.House;

/// <summary>What docs/README.md says of decisions: each has a number, a date and a status, and stands in its index.</summary>
public partial class DecisionTests
{
    private static readonly string Docs = Path.Combine(Repository.Root, "docs");

    public static TheoryData<string> Files { get; } = [.. Directory.GetFiles(Path.Combine(Docs, "decisions"), "*.md")
        .Select(f => Path.GetFileName(f)!).Order()];

    [Theory]
    [MemberData(nameof(Files))]
    public void EachHasANumberADateAndAStatus(string file)
    {
        var text = File.ReadAllText(Path.Combine(Docs, "decisions", file));

        var head = Head().Match(text);
        Assert.True(head.Success, $"{file} begins with \"{text[..Math.Min(text.Length, 160)]}\"");
        Assert.Equal(int.Parse(file[..4]), int.Parse(head.Groups["number"].Value));
        Assert.Contains(
            $"| [{head.Groups["number"]}](decisions/{file}) | {head.Groups["title"]} | {head.Groups["date"]} | {head.Groups["status"]} |",
            File.ReadAllText(Path.Combine(Docs, "README.md")));
    }

    [Fact]
    public void TheyAreNumberedWithoutGaps() => Assert.Equal(Enumerable.Range(1, Files.Count), Files.Select(f => int.Parse(f.Data[..4])));

    [GeneratedRegex(@"\A# (?<number>\d+)\. (?<title>.+)\n\n\*\*Decided\*\* (?<date>\d{4}-\d\d-\d\d(, amended \d{4}-\d\d-\d\d)?)\. "
        + @"\*\*Status\*\*: (?<status>in force|replaced by \d+)\.\n")]
    private static partial Regex Head();
}
