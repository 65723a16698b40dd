using Harkbook.Listening.Proposing;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing;

/// <summary>Tunes proposed from lines that were written down first; beats lie at 1, 1.5, 2 … seconds, so a sixteenth is an eighth of a second.</summary>
public class TunePlacingTests
{
    [Fact]
    public void HeardNotesBecomeATuneOnSixteenths()
    {
        var song = Propose(new(), Line(LineKind.Voice, 0.9, (60, 1.02, 1.45, 1), (62, 1.51, 2.2, 1), (63, 2.64, 2.9, 1)));
        var notes = song.Bars.First().Tune;
        Assert.Equal(["C4", "D4", "Eb4"], notes.Select(n => n.Value.ToString()));
        Assert.Equal([0.0, 1.0, 3.25], notes.Select(n => n.Start.Value));
        Assert.Equal([1.0, 1.5, 0.5], notes.Select(n => n.Length.Value));
        Assert.All(notes, n => Assert.Equal(Standing.Heard(0.9), n.Standing));
        Assert.Equal(new(TunePlayer.Voice, Standing.Heard(0.9)), song.TunePlayer);
    }

    /// <summary>.9 · .5 is less than an even chance.</summary>
    [Fact]
    public void UnsureNotesStayOutUnlessAllAreAskedFor()
    {
        HeardLine line = Line(LineKind.Whistle, 0.9, (72, 1, 1.4, 1), (74, 1.5, 1.9, 0.5));
        Assert.Single(Propose(new(), line).Bars.SelectMany(b => b.Tune));
        Assert.Equal(2, Propose(DraftOptions.All, line).Bars.Sum(b => b.Tune.Length));
    }

    [Fact]
    public void AnInstrumentThatIsUnsureHasNoTune()
    {
        var song = Propose(new(), Line(LineKind.Bowed, 0.6, (72, 1, 1.4, 1)));
        Assert.Null(song.TunePlayer);
        Assert.All(song.Bars, b => Assert.Empty(b.Tune));
    }

    /// <summary>The voice sounds in the first two bars (1 to 5 s), the fiddle in the last two.</summary>
    [Fact]
    public void EachSectionIsForWhoSoundsLongestThere()
    {
        var song = Propose(new(), Line(LineKind.Voice, 0.9, (60, 1, 2, 1), (62, 3, 4, 1), (64, 5, 5.2, 1)),
            Line(LineKind.Bowed, 0.8, (76, 3, 3.2, 1), (74, 5, 6, 1)));
        Assert.Equal([TunePlayer.Voice, TunePlayer.Fiddle], song.Sections.Select(song.TunePlayerIn));
        Assert.Equal(["C4", "D4", "D5"], song.Bars.SelectMany(b => b.Tune).Select(n => n.Value.ToString()));
    }

    [Fact]
    public void AHarmonicaPlaysHolesAndNoTune() =>
        Assert.All(Propose(new(), Line(LineKind.Harmonica, 0.9, (72, 1, 1.4, 1))).Bars, b => Assert.Empty(b.Tune));

    private static Song Propose(DraftOptions options, params HeardLine[] lines) => SongProposer.Propose(
        HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 16), 1, 2, 3, 4), [HandMade.Chord("C", 1, 9)]) with
        {
            Lines = new(0.05, [.. lines]),
            Sections = [HandMade.Section("A", 1, 5), HandMade.Section("B", 5, 9)],
        }, "T", "t.wav", options);

    private static HeardLine Line(LineKind kind, double sure, params (int Midi, double Onset, double End, double Confidence)[] notes) => new()
    {
        Kind = new(new Candidate<LineKind>(kind, sure)),
        Contour = new(Seconds.FromMilliseconds(10), [], []),
        Notes = [.. notes.Select(n => new HeardLineNote(n.Midi, default, Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), n.Confidence))],
    };
}
