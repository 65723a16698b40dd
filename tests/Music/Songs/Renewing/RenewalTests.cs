using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Renewing;

namespace Harkbook.Music.Tests.Songs.Renewing;

/// <summary>A new proposal under what a person decided.</summary>
public class RenewalTests
{
    private const string Edited = """
        title Low Lamp
        tuning E2 A2 D3 G3 B3 E4  ~heard 60%
        key D major               ~decided
        shape D  xx0232  ~heard 40%
        shape G  320003           ; as Wren plays it
        section Verse 1
        anchors 1 = 0:01
        chords | D . . . | G?50 . A?40 . | ~decided 2026-11-25 Wren: by ear   ; sure
        """;

    private const string Heard = """
        title Low Lamp
        tuning D2 A2 D3 G3 B3 E4
        tempo 120 ~heard 90%
        key A major               ~heard 70%
        shape D  000232  ~heard 80%
        shape G  020003  ~heard 50%
        shape A7  x02020  ~heard 50%
        section A 1 ~heard 80%
        anchors 1 = 0:01 ~heard 70%
        chords | Dm . . . | G . A7 . | ~heard 80%
        """;

    private static Renewed Renewal { get; } = SongRenewal.Of(SongText.Parse(Edited, "t"), SongText.Parse(Heard, "t").Song!);

    [Theory]
    [InlineData("key D major               ~decided")]
    [InlineData("shape G  320003           ; as Wren plays it")]
    [InlineData("section Verse 1\nanchors 1 = 0:01\nchords | D . . . | G?50 . A7")]
    [InlineData("~decided 2026-11-25 Wren: by ear")]
    [InlineData("; sure")]
    public void WhatAPersonDecidedStays(string text) => Assert.Contains(text, Renewal.Document.Text);

    [Fact]
    public void WhatWasOnlyHeardIsHeardAnew()
    {
        var song = Renewal.Document.Song!;
        Assert.Equal("D2 A2 D3 G3 B3 E4", song.Tuning.Value.ToString());
        Assert.Equal("000232", song.Shapes.Single(s => s.Name == "D").Shape.ToString());
        Assert.Equal(["D", "G", "A7"], song.Bars.SelectMany(b => b.Chords).Select(c => c.Value.Name));
        Assert.Contains("bar 2: A7, not A", Renewal.Changes);
    }

    private const string Decided =
        "title Low Lamp\ntuning open D   ; as Wren says\ncapo none\ntempo 90\nshape C x3213x\nshape D 000000 ~heard 40%\nsection A\nchords | C . D . |\n";

    private static string Told(string tuning, int capo) =>
        $"title Low Lamp\ntuning {tuning}\ncapo {capo}\nshape D 000000 ~heard 80%\nsection A 1 ~heard 80%\nchords | C . D . | ~heard 80%\n";

    [Fact]
    public void ATuningByItsNameStaysByteForByte() =>
        Assert.Equal(Decided.Replace("heard 40%", "heard 80%"), Of(Decided, Told("D2 A2 D3 F#3 A3 D4", 0)).Document.Text);

    [Fact]
    public void WhatIsToldReplacesWhatWasDecidedAndIsSaid()
    {
        var renewed = Of(Decided, Told("D2 A2 D3 F#3 A3 D4", 2), SongFact.Capo);
        Assert.True(renewed.Replaced);
        Assert.Contains("capo 2, told now, in place of none, which was decided", renewed.Changes);
        Assert.Contains("tuning open D   ; as Wren says\ncapo 2\n", renewed.Document.Text);
    }

    // By hand: with capo 2 the strings of open D sound E B E G# B E, and x3213x on them D, F#, A and D: the chord of D.
    [Fact]
    public void DecidedShapesThatNoLongerSoundTheirChordsAreTold()
    {
        Assert.Empty(Of(Decided, Told("D2 A2 D3 F#3 A3 D4", 0)).NewContradictions);
        var told = Of(Decided, Told("D2 A2 D3 F#3 A3 D4", 2), SongFact.Capo).NewContradictions;
        Assert.Contains(told, d => d.Line == 5 && d.Message.StartsWith("C as x3213x with capo 2 sounds D", StringComparison.Ordinal));
    }

    [Fact]
    public void PickedLinesOfTheOldTuningAreNamedWithTheirLine()
    {
        var picked = Decided + "pick\n  A3   | 0 . |\n  F#3 | 0 . |\n";
        var told = Assert.Throws<RenewalException>(() => Of(picked, Told("D2 A2 D3 G3 A3 D4", 0), SongFact.Tuning));
        Assert.Equal(11, told.Line);
        Assert.Contains("belongs to the tuning before, D2 A2 D3 F#3 A3 D4", told.Message);
        Assert.Contains("leave --tuning out", told.Message);
    }

    private static Renewed Of(string mine, string heard, params ImmutableArray<SongFact> told) =>
        SongRenewal.Of(SongText.Parse(mine, "t"), SongText.Parse(heard, "t").Song!, told);

    [Fact]
    public void BarsThatNobodyTouchedAreReplacedWhole()
    {
        var untouched = Heard.Replace("Dm", "F").Replace("A 1", "B 1").Replace("tuning", "meter 4/4 ~heard 90%\ntuning");
        var renewed = SongRenewal.Of(SongText.Parse(untouched, "t"),
            SongText.Parse(Heard.Replace("tuning", "meter 4/4 ~heard 90%\ntuning"), "t").Song!).Document.Song!;
        Assert.Equal("A 1", renewed.Sections.Single().Name);
        Assert.Equal("Dm", renewed.Bars.First().Chords[0].Value.Name);
    }

    private static string Tab(string tuning, string chord, string low, string note, string more = "", string pick = "pick ~heard 60%") =>
        $"""
        title Low Lamp
        tuning {tuning} ~heard 60%
        section A 1 ~heard 80%
        chords | {chord} . . . | D . . . |
        {pick}
          {low} | {note} . . . | . . . . |{more}

        """;

    [Fact]
    public void TabThatWasOnlyHeardIsHeardAnewOnTheStringsOfNow()
    {
        var before = SongText.Parse(Tab("E2 A2 D3 G3 B3 E4", "G", "E2", "3"), "t");
        var renewed = SongRenewal.Of(before, SongText.Parse(Tab("D2 A2 D3 G3 B3 E4", "C", "D2", "5"), "t").Song!, SongFact.Tuning);
        Assert.Equal((0, 5), renewed.Document.Song!.Bars.SelectMany(b => b.Picked).Select(p => (p.Value.StringIndex, p.Value.Fret)).Single());
        Assert.Contains("the tab that was only heard", renewed.Changes);
        Assert.Contains("chords | G . . . |", renewed.Document.Text);
    }

    [Fact]
    public void HeardTabThatNothingTakesThePlaceOfGoesAndThatIsSaid()
    {
        var before = SongText.Parse(Tab("E2 A2 D3 G3 B3 E4", "G", "E2", "3"), "t");
        var heard = SongText.Parse("title Low Lamp\ntuning D2 A2 D3 G3 B3 E4\nsection A 1 ~heard 80%\nchords | C . . . | D . . . |\n", "t").Song!;
        var renewed = SongRenewal.Of(before, heard, SongFact.Tuning);
        Assert.Empty(renewed.Document.Song!.Bars.SelectMany(b => b.Picked));
        Assert.Contains(renewed.Changes, c => c.StartsWith("no tab in A 1", StringComparison.Ordinal));
    }

    [Fact]
    public void TabWithoutANoteClaimsNothing()
    {
        var before = SongText.Parse(Tab("E2 A2 D3 G3 B3 E4", "G", "E2", ".", pick: "pick"), "t");
        var heard = SongText.Parse(Tab("D2 A2 D3 G3 B3 E4", "C", "D2", "5"), "t").Song!;
        Assert.Single(SongRenewal.Of(before, heard, SongFact.Tuning).Document.Song!.Bars.SelectMany(b => b.Picked));
    }

    [Theory]
    [InlineData("", "pick")]
    [InlineData("   ; Wren's own", "pick ~heard 60%")]
    public void TabThatAPersonTouchedStandsAgainstOtherStrings(string more, string pick)
    {
        var before = SongText.Parse(Tab("E2 A2 D3 G3 B3 E4", "G", "E2", "3", more, pick), "t");
        var heard = SongText.Parse(Tab("D2 A2 D3 G3 B3 E4", "C", "D2", "5"), "t").Song!;
        Assert.Throws<RenewalException>(() => SongRenewal.Of(before, heard, SongFact.Tuning));
    }
}
