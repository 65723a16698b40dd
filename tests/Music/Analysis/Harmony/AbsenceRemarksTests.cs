using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Harmony.Remarks;

namespace Harkbook.Music.Tests.Analysis.Harmony;

/// <summary>
/// What isn't there: thirds and basses worked by hand from the chords; the descending bass under A minor (A, G, F sharp, F) and the four chord that turns
/// minor before home are textbook commonplaces (Open Music Theory, chord inversions and modal mixture).
/// </summary>
public class AbsenceRemarksTests
{
    [Fact]
    public void ASectionWithoutItsHomeChordIsNamed()
    {
        var song = Tune.In("G major", "| G | C | D | G |", "| Am | C | D | Am |");
        Assert.Equal("S2 never has the home chord, G, and so stays open.", One(song, RemarkKind.NoHomeChord).Sentence);
        Assert.Equal([5, 6, 7, 8], One(song, RemarkKind.NoHomeChord).Places.Select(p => p.Bar));
    }

    [Fact]
    public void FourThatTurnsMinorIsOneRootInTwoColours() =>
        Assert.Equal("F turns to F minor on the same root: only the third falls, A to A flat.",
            One(Tune.In("C major", "| C | F | Fm | C |"), RemarkKind.TwoColours).Sentence);

    [Fact]
    public void ABassThatWalksUnderOneChordIsTold() =>
        Assert.Equal("The bass walks A, G, F sharp and F while A minor stays above it.",
            One(Tune.In("A minor", "| Am | Am/G | Am/F# | Am/F |"), RemarkKind.WalkingBass).Sentence);

    [Theory]
    [InlineData("| C | C/B | Am | G |")]
    [InlineData("| C | C/E | C/G | C |")]
    [InlineData("| C | F | G | C |")]
    public void OrdinaryChordsGetNoneOfThese(string chords) =>
        Assert.DoesNotContain(HarmonyRemarks.Of(Tune.In("C major", chords)),
            r => r.Kind is RemarkKind.NoHomeChord or RemarkKind.TwoColours or RemarkKind.WalkingBass);

    private static Remark One(Music.Songs.Song song, RemarkKind kind) => Assert.Single(HarmonyRemarks.Of(song), r => r.Kind == kind);
}
