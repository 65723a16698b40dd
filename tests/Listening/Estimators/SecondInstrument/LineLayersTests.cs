using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Tests.Estimators.SecondInstrument;

/// <summary>Whose is which note, where the network's word is written down here. Frames last about 12 ms.</summary>
public class LineLayersTests
{
    private static readonly KindShares Reed = new(0.9f, 0.03f, 0, 0.05f), Sung = new(0.1f, 0.7f, 0.15f, 0), Between = new(0.4f, 0.5f, 0.05f, 0.02f);

    [Fact]
    public void AVoiceAndThenAHarmonicaAreTwoLines()
    {
        List<LineStretch> sung = [.. Phrase(0, Sung, 57, 59, 60, 62), .. Phrase(900, Sung, 62, 60, 59, 57)];
        List<LineStretch> blown = [.. Phrase(450, Reed, 72, 74, 76, 79), .. Phrase(1350, Reed, 79, 76, 74, 72)];
        Assert.Equal([(LineKind.Harmonica, blown), (LineKind.Voice, sung)], Layers([.. sung, .. blown]));
    }

    [Fact]
    public void AVoiceAndAHarmonicaAtOnceAreTwoLines()
    {
        List<LineStretch> sung = [.. Phrase(0, Sung, 57, 59, 60, 62), .. Phrase(900, Sung, 62, 60, 59, 57)];
        List<LineStretch> blown = [.. Phrase(30, Reed, 72, 74, 76, 79), .. Phrase(930, Reed, 79, 76, 74, 72)];
        Assert.Equal([(LineKind.Harmonica, blown), (LineKind.Voice, sung)], Layers([.. sung, .. blown]));
    }

    [Fact]
    public void APhraseThatSoundsLikeAnotherKindIsStillTheSingers()
    {
        List<LineStretch> sung = [.. Phrase(0, Sung, 57, 59, 60, 62), .. Phrase(450, Between, 62, 60, 59, 57), .. Phrase(900, Sung, 57, 59, 60, 62)];
        Assert.Equal([(LineKind.Voice, sung)], Layers(sung));
    }

    [Fact]
    public void NothingHeardIsNoLine() => Assert.Empty(LineLayers.Of([], [], 0.02));

    [Fact]
    public void AHarpsChordIsOnePhrase()
    {
        var chord = new[] { 67, 71, 74 }.Select(m => Held(100, m, Reed)).ToList();
        Assert.Equal(chord, Assert.Single(PhraseFinder.Of(chord)).Stretches);
        Assert.Equal(1, PhraseFinder.Of(chord)[0].Together());
    }

    private static IEnumerable<(LineKind, List<LineStretch>)> Layers(List<LineStretch> stretches) =>
        LineLayers.Of([.. stretches.OrderBy(s => s.First).ThenBy(s => s.Midi)], [], present: 0.95)
            .Select(l => (l.Kind.Best, l.Stretches)).OrderBy(l => l.Best);

    private static IEnumerable<LineStretch> Phrase(int first, KindShares kinds, params int[] midis) => midis.Select((m, i) => Held(first + 60 * i, m, kinds));

    private static LineStretch Held(int first, int midi, KindShares kinds) =>
        new(midi, first, [.. Enumerable.Repeat<LineCell?>(new(midi - LineNetwork.LowestMidi, kinds, 0, 0, -20), 50)], HasOnset: true);
}
