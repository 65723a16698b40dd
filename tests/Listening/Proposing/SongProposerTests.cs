using Harkbook.Listening.Proposing;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing;

/// <summary>Songs proposed from hearings whose bars, beats and chords are known because they were written down first.</summary>
public class SongProposerTests
{
    private static Song Propose(Hearing hearing) => SongProposer.Propose(hearing, "Quay Song", "quay.wav", DraftOptions.All);

    private static Hearing FourBars(params HeardChord[] chords) => HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 16), 1, 2, 3, 4), [.. chords]);

    [Fact]
    public void FactsAreHeardWithTheirConfidence()
    {
        var song = Propose(FourBars(HandMade.Chord("C", 1, 9)));
        Assert.Equal(new(Hertz.FromHertz(441.24), Standing.Heard(0.97)), song.ReferencePitch);
        Assert.Equal(new(Tuning.Standard, Standing.Heard(0.75)), song.Tuning);
        Assert.Equal(new(Key.Parse("C major"), Standing.Heard(0.6)), song.Key);
        Assert.Equal((120.0, Standing.Heard(0.9)), (song.Tempo.Value, song.Tempo.Standing));
        Assert.Equal(("quay.wav", new string('b', 64)), (song.Recording!.Path, song.Recording.ContentHash));
        Assert.Null(song.Player);
    }

    [Fact]
    public void BarsRunFromDownbeatToDownbeatAndASteadyBeatNeedsTwoAnchors()
    {
        var song = Propose(FourBars(HandMade.Chord("C", 1, 9)));
        Assert.Equal(4, song.Bars.Count());
        Assert.Equal([(1, 1.0), (5, 9.0)], song.Sections.Single().Anchors.Select(a => (a.Bar, a.At.Value)));
        Assert.All(song.Sections.Single().Anchors, a => Assert.Equal(Standing.Heard(0.9), a.Standing));
    }

    [Fact]
    public void KeysChangeAtTheNearestBarLine()
    {
        var hearing = FourBars(HandMade.Chord("C", 1, 9)) with
        {
            Keys = [HandMade.Key("C major", 0, 4.8, 0.6), HandMade.Key("E minor", 4.8, 7.1, 0.71), HandMade.Key("C major", 7.1, 60, 0.8)],
            Sections = [HandMade.Section("A", 1, 7), HandMade.Section("B", 7, 9)],
        };
        var song = Propose(hearing);
        Assert.Equal(Key.Parse("C major"), song.Key.Value);
        Assert.Equal([new KeyChange(3, Key.Parse("E minor")) { Standing = Standing.Heard(0.71) }], song.Sections[0].Keys);
        Assert.Empty(song.Sections[1].Keys);
        Assert.Equal(["C major", "C major", "E minor", "C major"], song.Bars.Select(b => song.KeyAt(b.Number).ToString()));
    }

    [Fact]
    public void ChordsStandOnTheirBeats()
    {
        var song = Propose(FourBars(HandMade.Chord("C", 1.02, 3.99), HandMade.Chord("F", 3.99, 5.26, 0.5), HandMade.Chord("N.C.", 5.26, 9)));
        var starts = song.Bars.SelectMany(b => b.Chords.Select(c => (b.Number, c.Start.Value, c.Length.Value, c.Value.Name, c.Standing.Confidence)));
        Assert.Equal([(1, 0.0, 4.0, "C", 0.8), (2, 0.0, 2.0, "C", 0.8), (2, 2.0, 2.0, "F", 0.5), (3, 0.0, 0.5, "F", 0.5), (3, 0.5, 3.5, "N.C.", 0.8),
            (4, 0.0, 4.0, "N.C.", 0.8)], starts);
    }

    [Fact]
    public void APickUpGetsAWholeBar()
    {
        var song = Propose(HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 9, 2), 4, 1, 2, 3),
            [HandMade.Chord("G", 2, 2.5), HandMade.Chord("C", 2.5, 6.5)]));
        Assert.Equal(3, song.Bars.Count());
        Assert.Equal((3.0, 1.0, "G"), song.Bars.First().Chords.Select(c => (c.Start.Value, c.Length.Value, c.Value.Name)).Single());
        Assert.Equal(2.5, new SongClock(song).TimeOf(2).Value, 3);
    }

    [Fact]
    public void APickUpBeforeTheRecordingStartsIsCountedBackByTheTempo()
    {
        var song = Propose(HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 9, 0.2), 4, 1, 2, 3), []));
        Assert.Equal(2, song.Sections[0].Anchors[0].Bar);
        Assert.Equal(0.2, new SongClock(song).TimeOf(1, Beats.Whole(3)).Value, 3);
    }

    [Theory]
    [InlineData("4/4", new[] { 1, 2, 3, 4, 1, 2, 1, 2, 3, 4 }, "4/4 2/4 4/4")]
    [InlineData("4/4", new[] { 1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4 }, "4/4 4/4 4/4")]
    [InlineData("4/4", new[] { 1, 2, 3, 4, 5, 1, 2, 3, 4 }, "5/4 4/4")]
    [InlineData("6/8", new[] { 1, 2, 1, 2, 3, 1, 2 }, "6/8 9/8 6/8")]
    [InlineData("6/8", new[] { 1, 2, 1, 1, 2 }, "9/8 6/8")]
    [InlineData("3/4", new[] { 1, 2, 3, 1, 2 }, "3/4 3/4")]
    public void OddBarsGetTheirOwnMeter(string meter, int[] positions, string expected)
    {
        var song = Propose(HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, positions.Length), positions), [], meter));
        Assert.Equal(expected, string.Join(' ', song.Bars.Select(b => b.Meter)));
    }

    [Fact]
    public void RepeatedSectionsAreNumbered()
    {
        var hearing = HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 32), 1, 2, 3, 4), [HandMade.Chord("C", 1, 17)]) with
        {
            Sections = [HandMade.Section("A", 0, 5.1), HandMade.Section("B", 5.1, 8.8), HandMade.Section("A", 8.8, 17)],
        };
        var song = Propose(hearing);
        Assert.Equal([("A 1", 2), ("B 1", 2), ("A 2", 4)], song.Sections.Select(s => (s.Name, s.Bars.Length)));
        Assert.All(song.Sections, s => Assert.Equal(Standing.Heard(0.7), s.Standing));
    }

    // Open and barred C, as every chord chart has them: common practice.
    [Theory]
    [InlineData("x32010")]
    [InlineData("x35553")]
    [InlineData("8.10.10.9.8.8")]
    public void TheShapeIsTheOneThatSounded(string played)
    {
        var shape = Shape.Parse(played);
        var song = Propose(FourBars(HandMade.Chord("C", 1,
            9)) with { Evidence = new() { Notes = HandMade.Evidence(60, (1, 9, [.. shape.Pitches(Tuning.Standard).Select(p => p.Midi)])) } });
        Assert.Equal(played, song.Shapes.Single().Shape.ToString());
        Assert.Equal(song.Shapes.Single().Shape, song.Bars.First().Chords.Single().Value.Shape);
        Assert.InRange(song.Shapes.Single().Standing.Confidence!.Value, 0.5, Standing.MostHeard);
    }

    [Fact]
    public void WhereNothingTellsShapesApartTheyLieTogether()
    {
        var song = Propose(FourBars(HandMade.Chord("C", 1, 3), HandMade.Chord("G", 3, 5), HandMade.Chord("C", 5, 7), HandMade.Chord("G", 7, 9)));
        Assert.All(song.Shapes, s => Assert.All(s.Shape.Frets, f => Assert.True(f is null or <= 5)));
        Assert.Equal(["C", "G"], song.Shapes.Select(s => s.Name));
    }

    [Fact]
    public void TheProposalIsWhatItsFileSays()
    {
        var hearing = HandMade.Hearing(HandMade.Beats(HandMade.Every(0.4987, 30, 0.3), 3, 4, 1, 2),
            [HandMade.Chord("Am7", 0.3, 5.5, 0.333), HandMade.Chord("D/F#", 5.5, 9.1), HandMade.Chord("N.C.", 9.1, 15)], length: 15.26349) with
        {
            Sections = [HandMade.Section("A", 0, 7), HandMade.Section("B", 7, 15)],
        };
        var song = Propose(hearing);
        var read = SongText.Parse(SongText.Write(song), "quay.hark");
        Assert.DoesNotContain(read.Diagnostics, d => d.Severity != Severity.Hint);
        Assert.Equal(song, read.Song);
    }

    [Fact]
    public void NothingHeardGivesNoBars()
    {
        var song = Propose(HandMade.Hearing([], []) with { Keys = [] });
        Assert.Empty(song.Sections);
        Assert.Equal(Standing.Assumed, song.Key.Standing);
    }

    [Fact]
    public void AHeardHarmonicaStandsOnQuartersOfTheBeatWithOneBreathAtATime()
    {
        HeardLineNote Note(string hole, double onset, double end) => new(72, default, Seconds.FromSeconds(onset), Seconds.FromSeconds(end), 0.9,
            new(new Candidate<HarpNote>(HarpNote.Parse(hole), 1)));
        var hearing = FourBars(HandMade.Chord("G", 1, 9)) with
        {
            Lines = Lines(new HeardLine
            {
                Kind = new(new Candidate<LineKind>(LineKind.Harmonica, 0.8)),
                Contour = PitchContour.Silent,
                Harp = new(new Candidate<HeardHarp>(new(PitchName.Parse("C"), 2), 0.5)),
                Notes = [Note("-2", 1.02, 1.9), Note("-3", 1.01, 1.9), Note("+4", 1.03, 1.9), Note("-4'", 1.74, 2.4), Note("+4", 8.5, 12)],
            }),
        };
        var song = Propose(hearing);
        Assert.Equal(new Fact<HarpReference>(new(PitchName.Parse("C"), "richter"), Standing.Heard(0.4)), song.Harp);
        var notes = song.Bars.SelectMany(b => b.Harp.Select(h => (b.Number, h.Start.Value, h.Length.Value, h.Value.ToString())));
        Assert.Equal([(1, 0, 1.5, "-2"), (1, 0, 1.5, "-3"), (1, 1.5, 1.25, "-4'"), (4, 3, 1, "+4")], notes);
        Assert.Equal(song, SongText.Parse(SongText.Write(song), "quay.hark").Song);
    }

    // FourBars' beats are half a second apart from 1 s on: 1.26 s is half a beat, 2.99 s bar 2's start. The note to 12 s stops at the section's end.
    [Fact]
    public void AHeardVoiceGivesTheRhythmOfItsNotes()
    {
        HeardLineNote Note(double onset, double end, double confidence) => new(60, default, Seconds.FromSeconds(onset), Seconds.FromSeconds(end), confidence);
        HeardLine Singing(LineKind kind) => new()
        {
            Kind = new(new Candidate<LineKind>(kind, 0.8)),
            Contour = PitchContour.Silent,
            Notes = [Note(1.02, 1.24, 0.5), Note(1.26, 1.9, 1), Note(1.27, 1.7, 0.5), Note(2.99, 3.4, 1), Note(8.5, 12, 1)],
        };
        var song = Propose(FourBars(HandMade.Chord("G", 1, 9)) with { Lines = Lines(Singing(LineKind.Voice)) });
        var sung = song.Bars.SelectMany(b => b.Sung.Select(s => (b.Number, s.Start.Value, s.Length.Value, s.Value, s.Standing.Confidence)));
        Assert.Equal([(1, 0, 0.5, "x", 0.28), (1, 0.5, 1.25, "x", 0.56), (2, 0, 0.75, "x", 0.56), (4, 3, 1, "x", 0.56)], sung);
        Assert.Equal(song, SongText.Parse(SongText.Write(song), "quay.hark").Song);
        Assert.All(Propose(FourBars(HandMade.Chord("G", 1, 9)) with { Lines = Lines(Singing(LineKind.Whistle)) }).Bars, b => Assert.Empty(b.Sung));
    }

    [Fact]
    public void AVoiceAndAHarmonicaEachGetTheirOwn()
    {
        HeardLine Line(LineKind kind, double onset, string? hole) => new()
        {
            Kind = new(new Candidate<LineKind>(kind, 0.8)),
            Contour = PitchContour.Silent,
            Harp = hole is null ? null : new(new Candidate<HeardHarp>(new(PitchName.Parse("C"), 2), 0.5)),
            Notes = [new(67, default, Seconds.FromSeconds(onset), Seconds.FromSeconds(onset + 0.4), 1, hole is null ? null
                : new(new Candidate<HarpNote>(HarpNote.Parse(hole), 1)))],
        };
        var song = Propose(FourBars(HandMade.Chord("G", 1, 9)) with { Lines = Lines(Line(LineKind.Voice, 1.5, null), Line(LineKind.Harmonica, 3, "-2")) });
        Assert.Equal([(1, 1.0)], song.Bars.SelectMany(b => b.Sung.Select(s => (b.Number, s.Start.Value))));
        Assert.Equal([(2, 0.0, "-2")], song.Bars.SelectMany(b => b.Harp.Select(h => (b.Number, h.Start.Value, h.Value.ToString()))));
        Assert.Equal("C", song.Harp!.Value.Key.ToString());
    }

    private static HeardLines Lines(params HeardLine[] lines) => new(0.05, [.. lines]);
}
