using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Levels;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;
using Harkbook.Units;
using Xunit;

namespace Harkbook.Listening.Tests.Estimators.Beats.Levels;

/// <summary>
/// Expected by arithmetic: twenty seconds of strokes a quarter of a second apart, low sound on every other half second, middle sound on the others.
/// </summary>
public sealed class LevelFeaturesTests
{
    private const int Frames = 1001, Half = 25;

    [Theory]
    [InlineData(1, 2)] // half a second a beat: two strokes each
    [InlineData(2, 4)]
    public void StrokesAreCountedByTheBeat(int halves, double expected) =>
        Assert.Equal(Math.Log2(expected), Value("strokes", halves), 0.1);

    [Fact]
    public void AChordEveryFourSecondsIsOneInEightBeatsOfHalfASecond()
    {
        Assert.Equal(Math.Log2(1 / 8.0), Value("chords", 1), 0.3);
        Assert.Equal(1, Value("chords", 2) - Value("chords", 1), 0.1);
    }

    [Fact]
    public void LowAndMiddleSoundTakeTurnsOnBeatsAndNotOnPairsOfThem()
    {
        Assert.InRange(Value("low turns", 1), 0.8, 1);
        Assert.InRange(Value("middle turns", 1), 0.8, 1);
        Assert.InRange(Value("low turns", 2), 0, 0.1);
    }

    [Fact]
    public void OnPairsOfBeatsMiddleSoundStartsHalfwayAndLowSoundDoesNot()
    {
        Assert.True(Value("middle halfway", 2) > 1);
        Assert.True(Value("low halfway", 2) < -1);
    }

    [Fact]
    public void HowUsualATempoIsIsOfItsOwnBeats() =>
        Assert.Equal(BeatModel.Shipped.Habits.At(60), Value("usual tempo", 2), 0.01);

    [Fact]
    public void TheLikelierLevelHasTheLargerShare()
    {
        var shares = LevelModel.Shipped.Shares([Of(1), Of(2)]);
        var logs = new[] { 1, 2 }.Select(h => Of(h).Zip(LevelModel.Shipped.Weights, (x, w) => x * w).Sum()).ToArray();
        Assert.Equal(1, shares.Sum(), 1e-9);
        Assert.Equal(logs[0] - logs[1], Math.Log(shares[0] / shares[1]), 1e-6);
    }

    private static double Value(string name, int halves) => Of(halves)[LevelFeatures.Names.IndexOf(name)];

    /// <param name="halves">Half seconds a beat.</param>
    private static double[] Of(int halves)
    {
        ReadBeat[] row = [.. Enumerable.Range(0, (Frames - 1) / (halves * Half)).Select(k => new ReadBeat(k * halves * Half, halves * Half, 0, 1, null))];
        return new LevelFeatures(Sound(), [.. Notes()], BeatModel.Shipped.Habits).Of(row, 0.5, false, default);
    }

    private static IEnumerable<HeardNote> Notes() => Enumerable.Range(0, 80).Select(k =>
        new HeardNote(60, Seconds.FromSeconds(k / 4.0), Seconds.FromSeconds(k / 4.0 + 0.2), 0.9, 0.5));

    private static PulseSound Sound()
    {
        var (curves, bands) = (new PulseEvidence(Frames), new ushort[Frames * PulseBands.Count]);
        for (var f = 0; f < Frames; f += 200)
            curves.Change[f] = 1;
        for (var beat = 0; beat * Half < Frames; beat++)
        {
            // Two frames of sound between 60 and 150 Hz on even half seconds, between 430 and 1700 Hz on odd ones.
            var (from, to) = beat % 2 == 0 ? (0, 8) : (17, 29);
            for (var f = beat * Half; f < Math.Min(Frames, beat * Half + 2); f++)
                bands.AsSpan(f * PulseBands.Count + from, to - from).Fill(4096);
        }
        return new(curves, KeptBands.OfValues(bands), new(0, Frames - 1));
    }
}
