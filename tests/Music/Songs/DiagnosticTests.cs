using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

/// <summary>Every diagnostic, at its place.</summary>
public class DiagnosticTests
{
    private const string Facts = "title T\ntuning D2 A2 D3 F#3 A3 D4\nmeter 4/4\nshape G@low 020120\nshape D 000000\n";

    [Theory]
    [InlineData("tunning D2", DiagnosticCode.UnknownWord, 1, 1, 7, "Did you mean 'tuning'?")]
    [InlineData("title", DiagnosticCode.MissingValue, 1, 1, 5, null)]
    [InlineData("title A\ntitle B", DiagnosticCode.GivenTwice, 2, 1, 5, "Keep one of them.")]
    [InlineData("section A\ntempo 90", DiagnosticCode.OutOfOrder, 2, 1, 5, null)]
    [InlineData("key D", DiagnosticCode.MissingTitle, 1, 1, 0, null)]
    [InlineData("recording a.wav length x", DiagnosticCode.BadRecording, 1, 24, 1, null)]
    [InlineData("recording /a.wav", DiagnosticCode.RecordingElsewhere, 1, 11, 6, null)]
    [InlineData("pitch A4 = 4423 Hz", DiagnosticCode.BadPitch, 1, 7, 12, null)]
    [InlineData("tuning D2 H2 D3", DiagnosticCode.BadTuning, 1, 11, 2, null)]
    [InlineData("capo 13", DiagnosticCode.BadCapo, 1, 6, 2, null)]
    [InlineData("capo 2 on B9", DiagnosticCode.BadCapo, 1, 6, 7, null)]
    [InlineData("names hnad", DiagnosticCode.BadNames, 1, 7, 4, "Did you mean 'hand'?")]
    [InlineData("capo 2 on A2\nnames hand", DiagnosticCode.BadNames, 2, 7, 4, "Write what sounds, and names sound.")]
    [InlineData("shape D x32010", DiagnosticCode.ShapeContradicts, 1, 7, 8, null)]
    [InlineData("meter 4/5", DiagnosticCode.BadMeter, 1, 7, 3, null)]
    [InlineData("count eights", DiagnosticCode.BadCount, 1, 7, 6, "Did you mean 'eighths'?")]
    [InlineData("tempo 401", DiagnosticCode.BadTempo, 1, 7, 3, null)]
    [InlineData("key D mixolidian", DiagnosticCode.BadKey, 1, 7, 10, "Did you mean 'mixolydian'?")]
    [InlineData("harp H", DiagnosticCode.BadHarp, 1, 6, 1, null)]
    [InlineData("harp low", DiagnosticCode.BadHarp, 1, 6, 3, null)]
    [InlineData("harp high G richtr", DiagnosticCode.BadHarp, 1, 6, 13, "Did you mean 'richter'?")]
    [InlineData("shape D 02k", DiagnosticCode.BadShape, 1, 9, 3, null)]
    [InlineData("shape D 02210", DiagnosticCode.ShapeStrings, 1, 9, 5, null)]
    [InlineData("shape D 022100 fingers 12", DiagnosticCode.BadFingers, 1, 16, 7, null)]
    [InlineData("shape Bb7 x68786 fingers 013141", DiagnosticCode.FingersUnheld, 1, 29, 1, "Each pressed string takes one finger, 1 to 4, the others 0.")]
    [InlineData("shape C x32010 fingers 013201", DiagnosticCode.FingersUnheld, 1, 27, 1, "Each pressed string takes one finger, 1 to 4, the others 0.")]
    [InlineData("shape Em 022000 fingers 123000", DiagnosticCode.FingersUnheld, 1, 25, 1, "Each pressed string takes one finger, 1 to 4, the others 0.")]
    [InlineData("capo 2 on A2 D3 G3\nshape B 222222 fingers 111111", DiagnosticCode.FingersUnheld, 2, 25, 1,
        "Each pressed string takes one finger, 1 to 4, the others 0.")]
    [InlineData("shape G 3.10.12.0.0.3", DiagnosticCode.FingersUnheld, 1, 9, 13, "Look at the frets again, or mute a string.")]
    [InlineData("shape Em 022000 fingers 000000", DiagnosticCode.FingersUnheld, 1, 26, 1, "Each pressed string takes one finger, 1 to 4, the others 0.")]
    [InlineData("shape Am x02210 fingers 001110", DiagnosticCode.FingersUnheld, 1, 27, 1, "Each pressed string takes one finger, 1 to 4, the others 0.")]
    [InlineData("shape D xx0232 fingers 112143", DiagnosticCode.FingersUnheld, 1, 24, 1, "Each pressed string takes one finger, 1 to 4, the others 0.")]
    [InlineData("tune voise", DiagnosticCode.BadTunePlayer, 1, 6, 5, "Did you mean 'voice'?")]
    [InlineData("tune", DiagnosticCode.MissingValue, 1, 1, 4, null)]
    [InlineData("key Am", DiagnosticCode.BadKey, 1, 5, 2, "Did you mean 'A minor'?")]
    [InlineData("chord C 0003", DiagnosticCode.UnknownWord, 1, 1, 5, "Did you mean 'shape'?")]
    [InlineData("shape Q 022100", DiagnosticCode.BadChord, 1, 7, 1, null)]
    [InlineData("section A like B", DiagnosticCode.UnknownSection, 1, 16, 1, "Put the whole name in double quotes if 'like' is part of it.")]
    [InlineData("section A", DiagnosticCode.EmptySection, 1, 1, 7, null)]
    [InlineData("chords | D |", DiagnosticCode.OutsideSection, 1, 1, 6, "Put a line 'section NAME' before it.")]
    public void InTheHead(string text, DiagnosticCode code, int line, int column, int length, string? suggestion) =>
        AssertFound(text, code, line, column, length, suggestion);

    [Theory]
    [InlineData("chords | G@lo |", DiagnosticCode.UnknownShape, 10, 4, "Did you mean 'G@low'?")]
    [InlineData("shape G@high 555555\nchords | G |", DiagnosticCode.WhichShape, 10, 1, "Write the one that is meant, as in G@low.")]
    [InlineData("chords | Q |", DiagnosticCode.BadChord, 10, 1, null)]
    [InlineData("anchors 1 0:02", DiagnosticCode.BadAnchor, 9, 1, null)]
    [InlineData("anchors 9 = 0:02", DiagnosticCode.AnchorOutside, 9, 1, null)]
    [InlineData("anchors 1 = 0:02 2 = 0:01", DiagnosticCode.AnchorNotRising, 22, 4, null)]
    [InlineData("chords", DiagnosticCode.NoBars, 1, 6, null)]
    [InlineData("chords from x | D |", DiagnosticCode.BadFrom, 13, 1, null)]
    [InlineData("chords | D", DiagnosticCode.BarOpen, 10, 1, "Put | at its end.")]
    [InlineData("chords D | D |", DiagnosticCode.BarText, 8, 1, "Put | before it if it belongs to the first bar.")]
    [InlineData("chords |: D :|", DiagnosticCode.RepeatSign, 9, 1, "Write the bars again, or a new section with 'like'.")]
    [InlineData("sung from 1 | x |", DiagnosticCode.BarTwice, 1, 4, null)]
    [InlineData("sung | x | x | x | x | x |", DiagnosticCode.BarCount, 1, 4, "Is a bar line too many, or a bar missing in the other part?")]
    [InlineData("strum | d, |", DiagnosticCode.EmptyCell, 11, 0,
        "Write . where what came before goes on, _ for silence; text with a comma in it stands in double quotes.")]
    [InlineData("chords | D?101 |", DiagnosticCode.BadMark, 11, 4, null)]
    [InlineData("strum | q |", DiagnosticCode.BadStroke, 9, 1, null)]
    [InlineData("tune | A |", DiagnosticCode.BadTuneNote, 8, 1, "Say its octave, as in A4.")]
    [InlineData("tune | . f#4 |", DiagnosticCode.BadTuneNote, 10, 3, "Write the letter large: F#4.")]
    [InlineData("tune | A4bG4 |", DiagnosticCode.BadTuneNote, 8, 5, null)]
    [InlineData("tune | A4_ |", DiagnosticCode.BadTuneNote, 8, 3, "A comma splits a cell: write A4,..")]
    [InlineData("tune drum", DiagnosticCode.BadTunePlayer, 6, 4, null)]
    [InlineData("tune voice ~heard", DiagnosticCode.StandingNotKept, 12, 6, null)]
    [InlineData("tune | A4 |", DiagnosticCode.NoTunePlayer, 1, 4, "Write tune voice, whistle, fiddle or lead guitar before the sections.")]
    [InlineData("harp | 4 |", DiagnosticCode.BadHarpNote, 8, 1, null)]
    [InlineData("harp | -4&+5 |", DiagnosticCode.BadHarpNote, 11, 2, null)]
    [InlineData("harp | +4 |", DiagnosticCode.NoHarp, 1, 4, "Write, for instance, harp D richter.")]
    [InlineData("pick\nG3 | 0 |", DiagnosticCode.UnknownString, 1, 2, "The nearest is F#3.")]
    [InlineData("pick\nA3 | 0 |\nA3 | 0 |", DiagnosticCode.StringTwice, 1, 2, null)]
    [InlineData("pick", DiagnosticCode.EmptyPick, 1, 4, "Write one a line, high to low, as in D4 | 0 . 2 . |.")]
    [InlineData("pick\nA3 | q2 |", DiagnosticCode.BadPickedNote, 6, 2, null)]
    [InlineData("sung | x | ~herd", DiagnosticCode.BadStanding, 13, 4, "Did you mean 'heard'?")]
    [InlineData("sung | x | ~corrected Wren", DiagnosticCode.UnsignedCorrection, 22, 5, null)]
    [InlineData("sung | x | ~bar 2 decided", DiagnosticCode.StandingNowhere, 12, 14, null)]
    [InlineData("key E minr from 1", DiagnosticCode.BadKey, 7, 4, "Did you mean 'minor'?")]
    [InlineData("key", DiagnosticCode.BadKey, 1, 3, null)]
    [InlineData("key E minor from x", DiagnosticCode.BadFrom, 18, 1, null)]
    [InlineData("key E minor from", DiagnosticCode.BadFrom, 13, 4, null)]
    [InlineData("chords | D |\nkey E minor", DiagnosticCode.ChangeOutside, 1, 3, "Put it before the bars that it is for, or name their first with 'from'.")]
    [InlineData("chords | D |\nmeter 3/4 from 3", DiagnosticCode.ChangeOutside, 1, 5,
        "Put it before the bars that it is for, or name their first with 'from'.")]
    [InlineData("meter 3/4 ~heard", DiagnosticCode.StandingNotKept, 11, 6, null)]
    public void InASection(string text, DiagnosticCode code, int column, int length, string? suggestion)
    {
        var before = code is DiagnosticCode.BarTwice or DiagnosticCode.BarCount or DiagnosticCode.AnchorNotRising ? "section A\nchords | D |\nsung | x |\n"
            : "section A\n";
        var document = SongText.Parse(Facts + before + text, "t.hark");
        var found = document.Diagnostics.First(d => d.Code == code);
        Assert.Equal((column, length, suggestion), (found.Column, found.Length, found.Suggestion ?? suggestion));
    }

    [Fact]
    public void TooManyCells() =>
        Assert.Contains(SongText.Parse("title T\nsection A\nchords |" + string.Concat(Enumerable.Repeat(" D", 65)) + " |", "t").Diagnostics,
            d => d.Code == DiagnosticCode.TooManyCells);

    [Fact]
    public void AnchorsEndWithTheRecording() => AssertFound("title T\nrecording a.wav length 0:10\nsection A\nanchors 1 = 0:11\nchords | D |",
        DiagnosticCode.AnchorPastEnd, 4, 13, 4, null);

    [Fact]
    public void ManyMistakesAreSaidAtOnce()
    {
        var codes = SongText.Parse("titel T\ntempo 5\nsection A\nchords | Q | D\nsung | x | x | x |", "t").Diagnostics.Where(d => d.Severity == Severity.Error)
            .Select(d => d.Code);
        Assert.Equal([DiagnosticCode.UnknownWord, DiagnosticCode.MissingTitle, DiagnosticCode.BadTempo, DiagnosticCode.BadChord, DiagnosticCode.BarOpen,
            DiagnosticCode.BarCount],
            codes.OrderBy(c => c switch { DiagnosticCode.UnknownWord => 0, DiagnosticCode.MissingTitle => 1, DiagnosticCode.BadTempo => 2,
            DiagnosticCode.BadChord => 3, DiagnosticCode.BarOpen => 4, _ => 5 }));
    }

    [Fact]
    public void ADiagnosticReadsAsALink() =>
        Assert.Equal("t.hark:1:7: error: A tempo is 20 to 400 felt beats a minute, as in tempo 96.",
            SongText.Parse("tempo 5\ntitle T", "t.hark").Diagnostics.Single(d => d.Severity == Severity.Error).ToString());

    [Fact]
    public void EveryDiagnosticIsDescribed()
    {
        var docs = File.ReadAllText(Path.Combine(Root(), "docs", "song-file.md"));
        Assert.All(Enum.GetNames<DiagnosticCode>(), name => Assert.Contains($"`{name}`", docs));
    }

    [Fact]
    public void TheExampleInTheDocsIsRight()
    {
        var docs = File.ReadAllText(Path.Combine(Root(), "docs", "song-file.md"));
        var example = docs.Split("```hark\n")[1].Split("```")[0];
        Assert.Empty(SongText.Parse(example, "docs.hark").Diagnostics);
    }

    private static string Root()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Harkbook.slnx")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException($"No Harkbook.slnx above {AppContext.BaseDirectory}.");
        return folder;
    }

    private static void AssertFound(string text, DiagnosticCode code, int line, int column, int length, string? suggestion)
    {
        var found = SongText.Parse(text, "t.hark").Diagnostics.First(d => d.Code == code);
        Assert.Equal((line, column, length), (found.Line, found.Column, found.Length));
        if (suggestion is not null)
            Assert.Equal(suggestion, found.Suggestion);
    }
}
