using Harkbook.Listening.Proposing;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing;

/// <summary>What of hand-written hearings is written and what isn't: by hand, over and under one half, and three quarters for a second instrument.</summary>
public class SureEnoughTests
{
    private static Song Propose(Hearing hearing, DraftOptions? options = null) => SongProposer.Propose(hearing, "Quay Song", "quay.wav", options);

    private static Hearing FourBars(params HeardChord[] chords) => HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 16), 1, 2, 3, 4), [.. chords]);

    [Fact]
    public void AnUnsureChordStaysOut()
    {
        var hearing = FourBars(HandMade.Chord("C", 1, 3, 0.9), HandMade.Chord("F", 3, 5, 0.49), HandMade.Chord("G", 5, 9, 0.5));
        var song = Propose(hearing);
        Assert.Equal([(1, "C"), (3, "G"), (4, "G")], song.Bars.SelectMany(b => b.Chords.Select(c => (b.Number, c.Value.Name))));
        Assert.Equal(song, SongText.Parse(SongText.Write(song), "quay.hark").Song);
        Assert.Contains("F", Propose(hearing, DraftOptions.All).Bars.SelectMany(b => b.Chords).Select(c => c.Value.Name));
        Assert.True(SongProposer.LeftOut(hearing, song) >= 1);
        Assert.Equal(0, SongProposer.LeftOut(hearing, Propose(hearing, DraftOptions.All)));
    }

    [Theory]
    [InlineData(0.7, false)]
    [InlineData(0.8, true)]
    public void ASecondInstrumentNeedsStrongEvidence(double sure, bool stands)
    {
        HeardLineNote note = new(67, default, Seconds.FromSeconds(3), Seconds.FromSeconds(4), 1, new(new Candidate<HarpNote>(HarpNote.Parse("-2"), 1)));
        var line = new HeardLine
        {
            Kind = new(new Candidate<LineKind>(LineKind.Harmonica, sure)), Contour = PitchContour.Silent, Notes = [note],
            Harp = new(new Candidate<HeardHarp>(new(PitchName.Parse("C"), 2), 1)),
        };
        var song = Propose(FourBars(HandMade.Chord("G", 1, 9)) with { Lines = new(1 - sure, [line]) });
        Assert.Equal(stands, song.Harp is not null);
        Assert.Equal(stands, song.Bars.Any(b => !b.Harp.IsEmpty));
    }

    [Fact]
    public void AChangeOfKeyThatIsUnsureStaysOutAndLeavesTheKeyBefore()
    {
        var song = Propose(FourBars(HandMade.Chord("C", 1, 9)) with
        {
            Keys = [HandMade.Key("C major", 0, 3, 0.9), HandMade.Key("E minor", 3, 5, 0.3), HandMade.Key("C major", 5, 60, 0.8)],
        });
        Assert.Empty(song.Sections.SelectMany(s => s.Keys));
    }
}
