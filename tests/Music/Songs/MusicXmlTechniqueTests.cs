using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

/// <summary>
/// An outside list of what hands do: every element of the type "technical" of MusicXML 4.0 (W3C Community Group Final Report) has its
/// place in a song file or is left out for a reason.
/// </summary>
public class MusicXmlTechniqueTests
{
    private static readonly Dictionary<string, string> Cells = new()
    {
        ["harmonic"] = "<12>", ["open-string"] = "0", ["pluck"] = "0:p", ["fret"] = "5", ["string"] = "5", ["hammer-on"] = "h5", ["pull-off"] = "p5",
            ["bend"] = "5b7", ["tap"] = "t12",
    };

    /// <summary>What techniques MusicXML writes elsewhere: notations, note heads, notes.</summary>
    private static readonly Dictionary<string, string> Elsewhere = new()
    {
        ["slide"] = "s5", ["wavy-line"] = "5~", ["grace"] = "3h5", ["notehead x"] = "x", ["notehead parentheses"] = "(5)", ["tied let-ring"] = "5ring",
            ["scoop"] = "/5", ["falloff"] = "5\\",
    };

    private static readonly Dictionary<string, string> LeftOut = new()
    {
        ["up-bow"] = "a strum's u", ["down-bow"] = "a strum's d", ["arrow"] = "a strum's d and u", ["fingering"] = "a shape's fingers",
        ["thumb-position"] = "bowed strings", ["snap-pizzicato"] = "bowed strings", ["fingernails"] = "harp", ["double-tongue"] = "wind",
            ["triple-tongue"] = "wind",
        ["stopped"] = "brass", ["open"] = "brass", ["half-muted"] = "brass", ["harmon-mute"] = "brass", ["brass-bend"] = "brass", ["flip"] = "brass",
            ["smear"] = "brass", ["hole"] = "wind",
        ["heel"] = "organ", ["toe"] = "organ", ["handbell"] = "handbells", ["golpe"] = "a knock on the body, no note on a string",
            ["other-technical"] = "open-ended",
    };

    /// <summary>The elements in the schema's order.</summary>
    private static readonly string[] Technical =
    [
        .. ("up-bow down-bow harmonic open-string thumb-position fingering pluck double-tongue triple-tongue stopped "
            + "snap-pizzicato fret string hammer-on pull-off bend tap heel toe fingernails "
            + "hole arrow handbell brass-bend flip smear open half-muted harmon-mute golpe other-technical").Split(' '),
    ];

    [Fact]
    public void EveryTechnicalElementHasItsPlaceOrIsLeftOut() => Assert.Equal(Technical.Order(), Cells.Keys.Concat(LeftOut.Keys).Order());

    public static TheoryData<string> Played => [.. Cells.Concat(Elsewhere).Select(c => c.Value)];

    [Theory]
    [MemberData(nameof(Played))]
    public void ThePlaceIsThere(string cell)
    {
        var song = SongText.Parse($"title T\ntuning A3\nsection A\npick\nA3 | {cell} |", "t").Song!;
        Assert.Single(song.Bars.First().Picked);
        Assert.Contains($"| {cell} ", SongText.Write(song));
    }
}
