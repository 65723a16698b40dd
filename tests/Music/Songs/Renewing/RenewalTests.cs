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

    [Fact]
    public void BarsThatNobodyTouchedAreReplacedWhole()
    {
        var untouched = Heard.Replace("Dm", "F").Replace("A 1", "B 1").Replace("tuning", "meter 4/4 ~heard 90%\ntuning");
        var renewed = SongRenewal.Of(SongText.Parse(untouched, "t"), SongText.Parse(Heard.Replace("tuning", "meter 4/4 ~heard 90%\ntuning"), "t").Song!).Document.Song!;
        Assert.Equal("A 1", renewed.Sections.Single().Name);
        Assert.Equal("Dm", renewed.Bars.First().Chords[0].Value.Name);
    }
}
