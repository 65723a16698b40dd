using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

/// <summary>What players write by habit is read, or the message says what to write.</summary>
public class SayingsTests
{
    /// <summary>Pitches: data/tunings.tsv, whose rows have their sources; letters are the nearest such note to standard tuning's string.</summary>
    [Theory]
    [InlineData("standard", "E2 A2 D3 G3 B3 E4")]
    [InlineData("ukulele", "G4 C4 E4 A4")]
    [InlineData("E A D G B E", "E2 A2 D3 G3 B3 E4")]
    [InlineData("DADGAD", "D2 A2 D3 G3 A3 D4")]
    [InlineData("open D", "D2 A2 D3 F#3 A3 D4")]
    [InlineData("Open D", "D2 A2 D3 F#3 A3 D4")]
    [InlineData("banjo double C", "G4 C3 G3 C4 D4")]
    public void ATuningIsReadAsPlayersSayIt(string said, string pitches)
    {
        var document = SongText.Parse($"title T\ntuning     {said}  ~heard 80% ; as they say\n", "t");
        Assert.DoesNotContain(document.Diagnostics, d => d.Severity == Severity.Error);
        Assert.Equal(pitches, document.Song!.Tuning.Value.ToString());
        Assert.Equal(Standing.Heard(0.8), document.Song.Tuning.Standing);
    }

    [Fact]
    public void TheWordsOfATuningStayThroughEdits() =>
        Assert.Contains("tuning open D\n", SongText.Parse("title T\ntuning open D\nshape D 000000\nsection A\nchords | D |\n", "t")
            .WithFact(SongFact.Tempo, "90").WithChord(1, Units.Beats.Zero, "A").Text);

    [Fact]
    public void AnUnknownTuningIsToldTheNamesAndTheNearest()
    {
        var wrong = SongText.Parse("title T\ntuning opne D\n", "t").Diagnostics.Single(d => d.Code == DiagnosticCode.BadTuning);
        Assert.Equal((2, 8, 6, "Did you mean 'open D'?"), (wrong.Line, wrong.Column, wrong.Length, wrong.Suggestion));
        Assert.Contains("drop D, double drop D", wrong.Message);
        Assert.Contains("ukulele", wrong.Message);
    }

    [Theory]
    [InlineData(".0 2.", "1/2 0, 1 2")]
    [InlineData("0.h2 _3", "0 0, 2/3 2, 3/2 3")]
    [InlineData("12 .", "0 12")]
    public void ARunOfDotsAndAFretIsSplitAsAStrumIs(string cells, string notes)
    {
        var song = Read($"meter 2/4\nsection A\npick\nE4 | {cells} |");
        Assert.Equal(notes, string.Join(", ", song.Bars.First().Picked.Select(p => $"{p.Start} {p.Value.Fret}")));
    }

    /// <summary>Words of the trade for what a song file calls otherwise; common practice.</summary>
    [Theory]
    [InlineData("lyrics | Down to the sea |", "sung | The fer- ry . |")]
    [InlineData("Words: Down to the sea", "sung | The fer- ry . |")]
    [InlineData("instrument ukulele", "tuning ukulele")]
    [InlineData("artist Wren Adair", "player Wren Adair")]
    [InlineData("bpm 96", "tempo 96")]
    [InlineData("[Verse 1]", "section Verse 1")]
    [InlineData("Chorus:", "section Verse 1")]
    [InlineData("C G Am F", "chords | C . G . | Am |")]
    [InlineData("| C | G |", "also where a part goes on in another line")]
    public void AnotherWordIsToldTheLineThatIsMeant(string line, string meant)
    {
        var wrong = SongText.Parse($"title T\nsection A\nchords | D |\n{line}\n", "t").Diagnostics.Single(d => d.Code == DiagnosticCode.UnknownWord);
        Assert.Contains(meant, wrong.Suggestion!, StringComparison.Ordinal);
    }

    [Fact]
    public void TheWordsThatThereAreAreListedOnce()
    {
        var wrong = SongText.Parse("title T\nqqqqq\nzzzzzz\nsection A\nwwwwwww\n", "t").Diagnostics.Where(d => d.Code == DiagnosticCode.UnknownWord);
        Assert.Equal([true, false, false], wrong.Select(w => w.Suggestion is { } said && said.Contains("chords, strum", StringComparison.Ordinal)));
    }

    /// <summary>German calls B natural H (Riemann, Musiklexikon; from memory); small roots and "minor" are common practice.</summary>
    [Theory]
    [InlineData("H7", "Did you mean 'B7'?")]
    [InlineData("am", "Did you mean 'Am'?")]
    [InlineData("f#m7", "Did you mean 'F#m7'?")]
    [InlineData("Q", null)]
    public void AChordThatOnlyIsWrittenOtherwiseIsUnderstood(string chord, string? suggestion) =>
        Assert.Equal(suggestion, SongText.Parse($"title T\nsection A\nchords | {chord} |\n", "t").Diagnostics
            .Single(d => d.Code == DiagnosticCode.BadChord).Suggestion);

    [Fact]
    public void ABarThatACommentLeavesOpenIsToldOfTheQuotes() =>
        Assert.Contains("; starts a comment", SongText.Parse("title T\nsection A\nsung | so; far |\n", "t").Diagnostics
            .Single(d => d.Code == DiagnosticCode.BarOpen).Suggestion!, StringComparison.Ordinal);

    [Theory]
    [InlineData("pick\nE4 | .q2 . |", "A comma splits a cell: write .,q2.")]
    [InlineData("chords | .G . |", "A comma splits a cell: write .,G.")]
    [InlineData("harp | +4. . |", "A comma splits a cell: write +4,..")]
    public void OtherRunsAreToldOfTheComma(string line, string suggestion) =>
        Assert.Contains(SongText.Parse($"title T\nsection A\n{line}", "t").Diagnostics, d => d.Suggestion == suggestion);

    [Fact]
    public void ACommaAtASyllablesEndAndAnApostropheNeedNoQuotes()
    {
        var song = Read("section A\nsung | The,. wa- ter, don't | 'cause,it's \"so, so\" ter, x |");
        Assert.Equal(["The", "wa-", "ter,", "don't", "'cause", "it's", "so, so", "ter,", "x"], song.Bars.SelectMany(b => b.Sung).Select(s => s.Value));
        Assert.Equal(song, SongText.Parse(SongText.Write(song), "t").Song);
    }

    [Theory]
    [InlineData("sung | ter,,. |")]
    [InlineData("sung | ., |")]
    [InlineData("sung | ,ter |")]
    public void AnyOtherCommaWithNothingBesideItIsToldOfQuotes(string line) =>
        Assert.Contains("double quotes",
            SongText.Parse($"title T\nsection A\n{line}", "t").Diagnostics.First(d => d.Code == DiagnosticCode.EmptyCell).Suggestion);

    [Fact]
    public void TheOneLabelledShapeOfAChordIsUsed()
    {
        var document = SongText.Parse("title T\nshape Ebmaj7@bar x68786\nsection A\nchords | Ebmaj7 | Ebmaj7@bar |", "t");
        Assert.DoesNotContain(document.Diagnostics, d => d.Code == DiagnosticCode.WhichShape);
        Assert.Equal(["Ebmaj7 x68786", "Ebmaj7@bar x68786"], document.Song!.Bars.Select(b => $"{b.Chords[0].Value.Name} {b.Chords[0].Value.Shape}"));
    }

    [Fact]
    public void WhereShapesCompeteThatIsSaidOncePerChord()
    {
        var document = SongText.Parse("title T\nshape G@low 320003\nshape G@high 355433\nsection A\nchords | G | G,G | G@low |\nsection B\nchords | G |", "t");
        var said = Assert.Single(document.Diagnostics, d => d.Code == DiagnosticCode.WhichShape);
        Assert.Equal((5, 10, "Write the one that is meant, as in G@low."), (said.Line, said.Column, said.Suggestion));
        Assert.Null(document.Song!.Bars.First().Chords[0].Value.Shape);
    }

    private static Song Read(string text)
    {
        var document = SongText.Parse("title T\n" + text, "t.hark");
        return document.Song ?? throw new InvalidOperationException(string.Join('\n', document.Diagnostics));
    }
}
