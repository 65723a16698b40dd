using System.Text.RegularExpressions;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Theory;

/// <summary>The table that users read (docs/chord-symbols.md) and the program agree.</summary>
public partial class ChordSymbolGuideTests
{
    [Fact]
    public void EveryRowOfTheGuideHolds()
    {
        var rows = File.ReadLines(GuidePath()).Select(line => Row().Match(line)).Where(m => m.Success).ToList();
        Assert.True(rows.Count > 30, $"The guide's table has shrunk to {rows.Count} rows.");
        Assert.All(rows, AssertHolds);
    }

    private static void AssertHolds(Match row)
    {
        var chord = Chord.Of(PitchName.Parse("C"), ChordQuality.FromDegrees(row.Groups["degrees"].Value));
        Assert.Equal(row.Groups["symbol"].Value, ChordSymbol.Write(chord));
        Assert.All(Quoted().Matches(row.Groups["also"].Value), also => Assert.Equal(chord, ChordSymbol.Read(also.Groups[1].Value)));
    }

    private static string GuidePath()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Harkbook.slnx")))
            folder = folder.Parent;
        return Path.Combine(folder?.FullName ?? throw new InvalidOperationException("The tests run inside the repository."), "docs", "chord-symbols.md");
    }

    [GeneratedRegex(@"^\| `(?<symbol>\S+)` \| (?<degrees>[\d b#]+) \| (?<also>.*)\|$")]
    private static partial Regex Row();

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex Quoted();
}
