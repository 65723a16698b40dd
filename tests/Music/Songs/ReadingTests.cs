using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>What a line means. Expected values follow from the grammar in docs/song-file.md by hand.</summary>
public class ReadingTests
{
    private static readonly SongDocument Document = SongText.Parse(Examples.Ferry, "ferry.hark");

    private static Song Ferry => Document.Song!;

    [Fact]
    public void TheExampleHasNothingWrong() => Assert.Empty(Document.Diagnostics);

    [Fact]
    public void FactsAreRead()
    {
        Assert.Equal("The Ferry at Hollin Reach", Ferry.Title);
        Assert.Equal("Wren Adair", Ferry.Player);
        Assert.Equal(("ferry.wav", 83.412), (Ferry.Recording!.Path, Ferry.Recording.Length!.Value.Value));
        Assert.Equal(new(Hertz.FromHertz(442.3), Standing.Heard(0.97)), Ferry.ReferencePitch);
        Assert.Equal(new(Tuning.Parse("D2 A2 D3 F#3 A3 D4"), Standing.Heard(0.88)), Ferry.Tuning);
        Assert.Equal(new(Capo.None, Standing.Decided), Ferry.Capo);
        Assert.Equal(Standing.Corrected(new(2026, 11, 25), "Wren", "the C is natural, D mixolydian after all"), Ferry.Key.Standing);
        Assert.Equal(new HarpReference(PitchName.Parse("D"), "richter"), Ferry.Harp!.Value);
    }

    [Fact]
    public void ShapesKeepTheirNamesAndFingers()
    {
        Assert.Equal(["D", "G/D@low"], Ferry.Shapes.Select(s => s.Name));
        Assert.Equal("G/D", Ferry.Shapes[1].Symbol);
        Assert.Equal(6, Ferry.Shapes[0].Shape.Fingers.Length);
    }

    [Fact]
    public void CellsSplitABarEvenlyAndCommasSplitACell()
    {
        var bar = Ferry.Bars.ElementAt(1);
        Assert.Equal(["G", "D", "A"], bar.Chords.Select(c => c.Value.Name));
        Assert.Equal([Beats.Zero, Beats.Fraction(1, 2), Beats.Whole(2)], bar.Chords.Select(c => c.Start));
        Assert.Equal([Beats.Fraction(1, 2), Beats.Fraction(3, 2), Beats.Whole(2)], bar.Chords.Select(c => c.Length));
    }

    [Fact]
    public void AChordFindsTheShapeOfItsName()
    {
        Assert.Equal("000000", Ferry.Bars.First().Chords[0].Value.Shape!.ToString());
        Assert.Null(Ferry.Bars.ElementAt(1).Chords[0].Value.Shape);
    }

    [Fact]
    public void AStandingHoldsForTheLineAndAMarkForOneCell()
    {
        var chords = Ferry.Bars.ElementAt(2).Chords;
        Assert.Equal([Standing.Heard(0.84), Standing.Heard(null)], chords.Select(c => c.Standing));
        Assert.Equal(Standing.Decided, Ferry.Bars.First().Sung[0].Standing);
    }

    [Fact]
    public void StrokesMayRunTogether()
    {
        Assert.Equal([(0, 1), (2, 1), (5, 2)], Ferry.Bars.First().Strums.Select(s => (s.Start.Numerator, s.Start.Denominator)));
        Assert.Equal([Stroke.Down, Stroke.Down, Stroke.Up], Ferry.Bars.First().Strums.Select(s => s.Value));
        Assert.Equal(Beats.Fraction(2, 3), Ferry.Bars.ElementAt(2).Strums[1].Start);
    }

    [Fact]
    public void ANoteSoundsOverTheBarLineUntilSomethingEndsIt()
    {
        var harp = Ferry.Bars.First().Harp;
        Assert.Equal([new HarpNote(4, Breath.Blow), new(4, Breath.Draw), new(5, Breath.Draw)], harp.Select(h => h.Value));
        Assert.Equal([Beats.Whole(2), Beats.Whole(4), Beats.Whole(4)], harp.Select(h => h.Length));
        Assert.Equal([0, -1, 1], Ferry.Bars.ElementAt(2).Harp.Select(h => h.Value.Bend));
    }

    [Fact]
    public void StringsAreFoundByTheirOpenPitch()
    {
        var first = Ferry.Bars.First().Picked;
        Assert.Equal([new PickedNote(5, 0), new(4, 1), new(5, 2)], first.Select(p => p.Value));
        Assert.Equal([Attack.HammeredOn, Attack.PulledOff, Attack.Slid], Ferry.Bars.ElementAt(2).Picked.Select(p => p.Value.Attack));
    }

    [Fact]
    public void ASectionLikeAnotherTakesOverWhatItDoesNotGive()
    {
        var (one, two) = (Ferry.Sections[0], Ferry.Sections[1]);
        Assert.Equal(one.Bars[0].Chords.AsEnumerable(), two.Bars[0].Chords);
        Assert.Equal(one.Bars[2].Sung.AsEnumerable(), two.Bars[2].Sung);
        Assert.Equal(["A"], two.Bars[2].Chords.Select(c => c.Value.Name));
        Assert.Equal(4, two.Bars[0].Number);
        Assert.Empty(two.Anchors);
    }

    [Fact]
    public void AChordHeldOverTheBarLineIsClaimedInBothBars()
    {
        var song = Parse("chords | D . | . G |");
        Assert.Equal(["D"], song.Bars.First().Chords.Select(c => c.Value.Name));
        Assert.Equal(["D", "G"], song.Bars.Last().Chords.Select(c => c.Value.Name));
    }

    [Fact]
    public void SilenceLeavesAGap()
    {
        var chords = Parse("chords | D _ . G |").Bars.First().Chords;
        Assert.Equal([(0.0, 1.0), (3.0, 1.0)], chords.Select(c => (c.Start.Value, c.Length.Value)));
    }

    [Fact]
    public void InACompoundMeterTheBeatIsTheDottedNote()
    {
        var bar = SongText.Parse("title T\nmeter 6/8\nsection A\nchords | D . . G . . |\n", "t").Song!.Bars.First();
        Assert.Equal([Beats.Zero, Beats.Whole(1)], bar.Chords.Select(c => c.Start));
    }

    [Fact]
    public void AMeterLineHoldsFromTheNextBarToTheSectionsEnd()
    {
        var song = Parse("chords | D |\nmeter 2/4\nchords | A |\nmeter 4/4\nchords | D |\nsection B\nchords | G |");
        Assert.Equal(["4/4", "2/4", "4/4", "4/4"], song.Bars.Select(b => b.Meter.ToString()));
    }

    [Fact]
    public void APartMayStartLater()
    {
        var song = Parse("chords | D | D | D |\nsung from 3 | x . |");
        Assert.Equal([0, 0, 1], song.Bars.Select(b => b.Sung.Length));
    }

    [Fact]
    public void FactsThatNobodyGaveAreAssumed()
    {
        var document = SongText.Parse("title Low Water\nsection A\nchords | D |", "low.hark");
        Assert.Equal(Standing.Assumed, document.Song!.Tempo.Standing);
        Assert.All(document.Diagnostics, d => Assert.Equal((DiagnosticCode.NotGiven, Severity.Hint), (d.Code, d.Severity)));
    }

    [Fact]
    public void WhatIsAssumedIsSaidInOneHint()
    {
        var hint = Assert.Single(SongText.Parse("title Low Water\npitch 442\nsection A\nchords | D |", "low.hark").Diagnostics);
        Assert.Equal("Not said, so assumed: standard tuning, no capo, 4/4, tempo 120, C major.", hint.Message);
    }

    /// <summary>At 60 a bar of 4/4 lasts 4 s, so the fourth starts at 12 s.</summary>
    [Theory]
    [InlineData("0:12.001", null)]
    [InlineData("0:12", "Bar 4 lies after the recording's end (0:12.000).")]
    [InlineData("0:05", "Bars 3 to 4 lie after the recording's end (0:05.000).")]
    public void BarsAfterTheRecordingsEndAreToldOf(string length, string? expected)
    {
        var found = SongText.Parse($"title T\nrecording t.wav length {length}\ntempo 60\nsection A\nchords | D | D |\nsection B\nchords | D | D |",
            "t").Diagnostics;
        var told = found.SingleOrDefault(d => d.Code == DiagnosticCode.BarsPastEnd);
        Assert.Equal((expected, expected is null ? 0 : 6), (told?.Message, told?.Line ?? 0));
    }

    [Theory]
    [InlineData("section Verse 2 like Verse 1", "Verse 2 takes over the words of Verse 1.")]
    [InlineData("section Verse 2 like Verse 1\nsection Verse 3 like Verse 2", "Verse 2 and Verse 3 take over the words of Verse 1.")]
    [InlineData("section Verse 2 like Verse 1\nsung | la |", null)]
    [InlineData("section Verse 2 like Verse 1\nsung | _ |", null)]
    [InlineData("section Verse 1 like Verse 1", null)]
    [InlineData("section Tag like Verse 1", null)]
    [InlineData("section Chorus 1\nsung | oh |\nsection Chorus 2 like Chorus 1", null)]
    [InlineData("section Bridge 1\nsung | x |\nsection Bridge 2 like Bridge 1", null)]
    public void WordsOfAnotherVerseAreToldOfOnce(string rest, string? expected) =>
        Assert.Equal(expected, SongText.Parse($"title T\nsection Verse 1\nsung | lo |\n{rest}",
            "t").Diagnostics.SingleOrDefault(d => d.Code == DiagnosticCode.WordsTakenOver)?.Message);

    /// <summary>Between words a bare "?" is the word's own; behind quotes or a sign it can't be.</summary>
    [Theory]
    [InlineData("care?", "care?", null)]
    [InlineData("care?80", "care", 0.8)]
    [InlineData("care??80", "care?", 0.8)]
    [InlineData("care?,", "care?,", null)]
    [InlineData("\"care\"?", "care", -1.0)]
    [InlineData("x?", "x", -1.0)]
    public void AQuestionMarkBehindASungWordIsTheWords(string cell, string word, double? heard)
    {
        var sung = Assert.Single(Parse($"sung | {cell} |").Bars.Single().Sung);
        Assert.Equal((word, heard is { } sure ? Standing.Heard(sure < 0 ? null : sure) : Standing.Decided), (sung.Value, sung.Standing));
    }

    [Fact]
    public void QuotedTextMayHoldAnything()
    {
        var song = SongText.Parse("title \"A; B ~ \"\"C\"\"\" ; really\nsection A\nsung | \"a, b?\" . | \".\"? |", "t").Song!;
        Assert.Equal("A; B ~ \"C\"", song.Title);
        Assert.Equal(["a, b?", "."], song.Bars.SelectMany(b => b.Sung).Select(s => s.Value));
        Assert.Equal(Standing.Heard(null), song.Bars.Last().Sung[0].Standing);
    }

    [Fact]
    public void ACapoMayStopSomeStrings()
    {
        var song = SongText.Parse("title T\ntuning D2 A2 D3 F#3 A3 D4\ncapo 2 on A3 F#3\nsection A\nchords | D |", "t").Song!;
        Assert.Equal(Capo.At(2, [3, 4]), song.Capo.Value);
    }

    [Fact]
    public void CrLfAndByteOrderMarksAreRead()
    {
        var crlf = "\uFEFF" + Examples.Ferry.ReplaceLineEndings("\r\n");
        var document = SongText.Parse(crlf, "ferry.hark");
        Assert.Equal(Ferry, document.Song);
        Assert.Equal(crlf, document.Text);
    }

    [Theory]
    [InlineData("1:23.412", 83.412)]
    [InlineData("0:02.3", 2.3)]
    [InlineData("1:02:03", 3723)]
    [InlineData("2.315", 2.315)]
    public void TimesAreReadAsOnACounter(string text, double seconds)
    {
        Assert.True(TimeText.TryRead(text, out var time));
        Assert.Equal(seconds, time.Value);
    }

    private static Song Parse(string bars) => SongText.Parse("title T\nsection A\n" + bars, "t.hark").Song!;
}
