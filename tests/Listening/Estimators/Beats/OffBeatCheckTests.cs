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

        Assert.Equal(beats, OffBeatCheck.Apply(beats, Played()));
    }

    [Fact]
    public void HighNotesBetweenBeatsMoveNothing()
    {
        var beats = Beats(Thumb);

        Assert.Equal(beats, OffBeatCheck.Apply(beats, [.. Thumb.Select(t => Note(60, t + 0.25))]));
    }

    private static ImmutableArray<HeardNote> Played() =>
        [.. Thumb.Select(t => Note(45, t)), .. Thumb.SelectMany(t => new[] { Note(57, t + 0.25), Note(60, t + 0.25), Note(64, t + 0.25) })];

    private static HeardNote Note(int midi, double at) => new(midi, Seconds.FromSeconds(at), Seconds.FromSeconds(at + 0.4), 0.9, 0.6);

    private static ImmutableArray<HeardBeat> Beats(IEnumerable<double> times) =>
        [.. times.Select((t, i) => new HeardBeat(Seconds.FromSeconds(t), i % 4 + 1, 0.9))];
}
