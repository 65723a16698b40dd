using CsCheck;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

public class FuzzTests
{
    private static readonly string[] Bits =
    [
        "title ", "player ", "album ", "recording ", "pitch ", "tuning ", "capo ", "meter ", "tempo ", "key ", "harp ", "shape ", "section ",
            "anchors ", "chords ",
        "strum ", "pattern Roll ", "strum Roll ", "throughout ", "pick throughout\n", "  bass | * . |\n", "* ", "d ", "in 3/4 ", "sung ", "pick\n", "  D4 ",
            "  E4 ", " like ", " from ", "| ", "|", "||", ". ", "_", ",", "?", "?50", "~heard 80%", " ~", "~bar 2 beat 1+1/3 ", "corrected ", "2026-11-25",
        "D ", "G/B@low ", "020120 ", "fingers ", "4/4", "6/8 ", "96", "A4 = 440 Hz", "1 = 0:02.5 ", "5 = ", "-4&-5 ", "+6o", "h2 ", "x", "\"", ";", "\n",
            "\r\n", "\r", " ", "\t", "\uFEFF", "\0", "é", "\uD800",
    ];

    private static readonly Gen<string> Line = SongGen.OneOf(Bits).Array[0, 60].Select(string.Concat);

    private static readonly Gen<string> Mutated = Gen.Select(Gen.Int[0, Examples.Ferry.Length], Gen.Int[0, 40], SongGen.OneOf(Bits).Array[0, 5]
        .Select(string.Concat),
        (at, cut, put) => Examples.Ferry[..at] + put + Examples.Ferry[Math.Min(Examples.Ferry.Length, at + cut)..]);

    [Fact]
    public void NoTextMakesItThrow() => Gen.Frequency((3, Line), (3, Mutated), (1, Gen.String)).Sample(Check, iter: 2000);

    [Fact]
    public void ExtremesAreRead()
    {
        Check("title T\nsection A\nchords | " + string.Concat(Enumerable.Repeat("D,", 100_000)) + " |");
        Check("title T\nsection A\nchords | " + string.Concat(Enumerable.Repeat("D ", 100_000)) + " |");
        Check("title T\nmeter 32/4\nsection A\nsung | x,.,.,.,.,.,.,.,.,.,.,.,. . . . . . . . . . . |" + string.Concat(Enumerable.Repeat(" . |", 5000))
            + " . . . . . . _ |");
        Check("title T\n" + string.Concat(Enumerable.Range(1, 3000).Select(i => $"section S{i} like S{i - 1}\nchords | D |\n")));
        Check("anchors 1 = 99999999999999999999:00\npitch 1e999\ntempo 1e-999\ncapo 99999999999\n~~~~\n\"\"\"\"\n");
    }

    /// <summary>The text comes back byte for byte, and every remark lies inside it.</summary>
    private static void Check(string text)
    {
        var document = SongText.Parse(text, "any.hark");
        Assert.Equal(text, document.Text);
        var lines = text.ReplaceLineEndings("\n").Split('\n').Length;
        Assert.Equal(document.Song is null, document.Diagnostics.Any(d => d.Severity == Severity.Error));
        Assert.All(document.Diagnostics, d => Assert.True(d.Line >= 1 && d.Column >= 1 && d.Length >= 0 && d.Message.Length > 0, d.ToString()));
        Assert.All(document.Diagnostics, d => Assert.True(d.Line <= text.Count(c => c is '\n' or '\r') + 1, d.ToString()));
        Assert.True(lines >= 1);
        if (document.Song is { } song)
            Assert.Equal(song, SongText.Parse(SongText.Write(song), "any.hark").Song);
    }
}
