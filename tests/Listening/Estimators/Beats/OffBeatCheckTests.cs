using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Beats;

// A thumb that keeps to the beat while chords fall between: common practice of accompaniment on the guitar.
public class OffBeatCheckTests
{
    private static readonly double[] Thumb = [.. Enumerable.Range(0, 16).Select(i => 1 + 0.5 * i)];

    [Fact]
    public void BeatsBetweenTheThumbsNotesAreMovedOntoThem()
    {
        var beats = Beats(Thumb.Select(t => t - 0.25));

        var moved = OffBeatCheck.Apply(beats, Played());

        Assert.Equal(15, moved.Length);
        Assert.All(moved.Zip(Thumb), pair => Assert.Equal(pair.Second, pair.First.Time.Value, 1e-9));
        Assert.All(moved, b => Assert.InRange(b.Confidence, 0, 0.5));
    }

    [Fact]
    public void BeatsOnTheThumbsNotesStay()
    {
        var beats = Beats(Thumb);

        AssertStay(beats, OffBeatCheck.Apply(beats, Played()));
    }

    [Fact]
    public void EvenNotesOnAndBetweenBeatsMoveNothing()
    {
        var beats = Beats(Thumb);

        AssertStay(beats, OffBeatCheck.Apply(beats, Even()));
    }

    // Lerdahl and Jackendoff 1983, metrical preference rules 5 and 6: long notes, new harmony and low notes make strong beats.
    [Fact]
    public void BeatsMoveOntoLongLowChords()
    {
        var moved = OffBeatCheck.Apply(Beats(Thumb.Select(t => t - 0.25)), Chords());

        Assert.All(moved.Zip(Thumb), pair => Assert.Equal(pair.Second, pair.First.Time.Value, 1e-9));
    }

    [Fact]
    public void BeatsThatNotesDoNotSpeakForAreTrustedLess()
    {
        var beats = Beats(Thumb);

        var agreed = OffBeatCheck.Apply(beats, Chords());
        var doubted = OffBeatCheck.Apply(beats, Even());

        Assert.All(doubted.Zip(agreed), pair => Assert.True(pair.First.Confidence < pair.Second.Confidence));
    }

    private static void AssertStay(ImmutableArray<HeardBeat> beats, ImmutableArray<HeardBeat> after)
    {
        Assert.Equal(beats.Select(b => (b.Time, b.PositionInBar)), after.Select(b => (b.Time, b.PositionInBar)));
        Assert.All(after, b => Assert.InRange(b.Confidence, 0, 0.9));
    }

    private static ImmutableArray<HeardNote> Even() => [.. Thumb.SelectMany(t => new[] { Note(60, t), Note(60, t + 0.25) })];

    /// <summary>A chord of three on every beat, each on another root, and now and then a single high note after it.</summary>
    private static ImmutableArray<HeardNote> Chords() =>
        [.. Thumb.SelectMany((t, i) => new[] { Note(45 + i % 5, t), Note(52 + i % 5, t), Note(57 + i % 5, t) }), .. Thumb.Where((_, i) => i % 4 == 3).Select(t => Note(76, t + 0.25))];

    private static ImmutableArray<HeardNote> Played() =>
        [.. Thumb.Select(t => Note(45, t)), .. Thumb.SelectMany(t => new[] { Note(57, t + 0.25), Note(60, t + 0.25), Note(64, t + 0.25) })];

    private static HeardNote Note(int midi, double at) => new(midi, Seconds.FromSeconds(at), Seconds.FromSeconds(at + 0.4), 0.9, 0.6);

    private static ImmutableArray<HeardBeat> Beats(IEnumerable<double> times) =>
        [.. times.Select((t, i) => new HeardBeat(Seconds.FromSeconds(t), i % 4 + 1, 0.9))];
}
