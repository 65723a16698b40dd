using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Levels;
using Harkbook.Listening.Evidence;
using Xunit;

namespace Harkbook.Listening.Tests.Estimators.Beats.Levels;

/// <summary>Expected by arithmetic: twenty seconds of low sound on every half second, a chord every four seconds.</summary>
public sealed class LevelFeaturesTests
{
    private const int Frames = 1001, Half = 25;

    [Theory]
    [InlineData(1, 120)]
    [InlineData(2, 60)]
    public void TheTempoIsThatOfTheBeats(int halves, double expected) => Assert.Equal(expected, Of(halves).Tempo, 0.01);

    [Fact]
    public void AChordEveryFourSecondsIsOneInEightBeatsOfHalfASecond()
    {
        Assert.Equal(Math.Log2(1 / 8.0), Of(1).Chords, 0.3);
        Assert.Equal(1, Of(2).Chords - Of(1).Chords, 0.1);
    }

    [Fact]
    public void LowSoundOnEveryHalfSecondStartsOnTheQuartersOfATwoSecondBeatAndOfNoShorterOne()
    {
        Assert.True(Of(1).LowQuarters < -1);
        Assert.True(Of(4).LowQuarters > -0.3);
    }

    /// <param name="halves">Half seconds a beat.</param>
    private static LevelTraits Of(int halves)
    {
        ReadBeat[] row = [.. Enumerable.Range(0, (Frames - 1) / (halves * Half)).Select(k => new ReadBeat(k * halves * Half, halves * Half, 0, 1, null))];
        return new LevelFeatures(Sound(), []).Of(row, default);
    }

    private static PulseSound Sound()
    {
        var (curves, bands) = (new PulseEvidence(Frames), new ushort[Frames * PulseBands.Count]);
        for (var f = 0; f < Frames; f += 200)
            curves.Change[f] = 1;
        // Two frames of sound between 60 and 150 Hz on each half second.
        for (var f = 0; f < Frames; f += Half)
        {
            for (var k = f; k < Math.Min(Frames, f + 2); k++)
                bands.AsSpan(k * PulseBands.Count, 8).Fill(4096);
        }
        return new(curves, KeptBands.OfValues(bands), new(0, Frames - 1));
    }
}
