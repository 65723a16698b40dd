using System.Text.RegularExpressions;
using CsCheck;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs.Rebarring;

/// <summary>The way back that keeps edits: bars some beats later, and as many earlier, are the same song.</summary>
public class LaterAndEarlierTests
{
    private const string Lantern = """
        title Lantern Row
        tempo 100
        section Intro
        chords | D . . . | D . . . | G . . . | D . . . |
        section Verse
        chords | D . . . | A . . . | D . . . | G . A . |
        strum throughout | d . du . |
        """;

    private static readonly string[][] ChordBars = [["D", ".", ".", "."], ["G", ".", "A", "."], [".", ".", ".", "."], ["_", ".", "Em", "."],
        ["D", ".", "_", "."], ["A7,G", ".", ".", "D"]];

    private static readonly string[] StrumBars = ["d . du .", "d du . du", ". . . .", "d . _ .", "_ . d u"];

    private static readonly string[] SungBars = ["Low . tide _", "_ . . .", ". . row,ing .", "home . . ."];

    private static readonly Gen<string> Sections =
        from count in Gen.Int[1, 6]
        from chords in Gen.Int[0, ChordBars.Length - 1].Array[count]
        from strums in Gen.Int[0, StrumBars.Length - 1].Array[count]
        from sung in Gen.Int[0, SungBars.Length - 1].Array[count]
        from parts in Gen.Int[0, 7]
        from heard in Gen.Bool
        from anchor in Gen.Bool
        select $"{(heard ? "~heard 60%" : "")}\n{(anchor ? "anchors 1 = TIME\n" : "")}{(count > 2 ? "key A major from 2\n" : "")}"
            + Line("chords", chords.Select(c => string.Join(' ', ChordBars[c]))) + (heard ? " ~heard 70%\n" : "\n")
            + ((parts & 3) == 1 ? Line("strum", strums.Select(s => StrumBars[s])) + "\n" : (parts & 3) == 2
                ? $"strum throughout | {StrumBars[strums[0] % 2]} |\n" : "")
            + ((parts & 4) == 4 ? Line("sung", sung.Select(s => SungBars[s])) + "\n" : "");

    private static readonly Gen<string> Songs =
        from sections in Sections.Array[1, 4]
        from like in Gen.Bool
        select "title T\ntempo 100\n" + string.Concat(sections.Select((s, i) => $"section S{i} {s.Replace("TIME", $"{i + 1}:10", StringComparison.Ordinal)}"))
            + (like ? "section Last like S0\n" : "");

    private static string Line(string part, IEnumerable<string> bars) => $"{part} | {string.Join(" | ", bars)} |";

    private static SongDocument Moved(SongDocument document, int later) =>
        SongText.Parse(SongRebarring.Of(document, new(TempoLevel.Same, null, Beats.Whole(later))).Text, "t");

    [Fact]
    public void ThereAndBackIsTheSameSongAlsoWhenItWasEditedBetween() => Gen.Select(Songs, Gen.Int[1, 3]).Sample((text, beats) =>
    {
        var before = SongText.Parse(text, "t");
        Assert.True(before.Song is not null, string.Join('\n', before.Diagnostics) + text);
        var there = SongText.Parse(Moved(before, beats).Text.Replace("title T\n", "title Tide ; mine\n", StringComparison.Ordinal), "t");
        var back = Moved(there, -beats);
        Assert.True(Same(before.Song with { Title = "Tide" }, back.Song!), $"{beats}\n{text}\n--- there\n{there.Text}\n--- back\n{back.Text}");
    }, iter: 500);

    private static bool Same(Song one, Song other) => one == other;

    [Fact]
    public void BarsAndPatternsAreAsTheyWere()
    {
        var there = Moved(SongText.Parse(Lantern, "t"), 1);
        Assert.Contains("strum throughout", there.Text);
        var back = Moved(there, -1);
        Assert.True(Same(SongText.Parse(Lantern, "t").Song!, back.Song!), there.Text + back.Text);
        Assert.Contains("strum throughout | d . du . |\n", back.Text);
        Assert.Contains("| D . . . | A . . . | D . . . | G . A . |", Regex.Replace(back.Text, " +", " "));
    }
}
