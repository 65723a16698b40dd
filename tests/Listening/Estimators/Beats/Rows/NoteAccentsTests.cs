using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Beats.Rows;

// A thumb that keeps to the beat while chords fall between: common practice of accompaniment on the guitar. Long, low notes and new harmony on
// strong beats: Lerdahl and Jackendoff 1983, metrical preference rules 5 and 6.
public class NoteAccentsTests
{
    private static readonly double[] Thumb = [.. Enumerable.Range(0, 48).Select(i => 1 + 0.5 * i)];

    [Fact]
    public void BeatsFallOnTheThumbsNotesWhereTheNetworkCannotTell()
    {
        ImmutableArray<HeardNote> played =
            [.. Thumb.Select(t => Note(45, t)), .. Thumb.SelectMany(t => new[] { Note(57, t + 0.25), Note(60, t + 0.25), Note(64, t + 0.25) })];
        AssertOnThumb(Read(played));
    }

    [Fact]
    public void BeatsFallOnLongLowChords()
    {
        ImmutableArray<HeardNote> played =
        [
            .. Thumb.SelectMany((t, i) => new[] { Note(45 + i % 5, t), Note(52 + i % 5, t), Note(57 + i % 5, t) }),
            .. Thumb.Where((_, i) => i % 4 == 3).Select(t => Note(76, t + 0.25)),
        ];
        AssertOnThumb(Read(played));
    }

    [Fact]
    public void AStrokesLengthReachesToTheNext()
    {
        var accents = new NoteAccents([Note(45, 1), Note(60, 1.01), Note(64, 1.5)], 200);
        var accent = accents.At(50, 25);
        Assert.Equal(1, accent.Strokes);
        Assert.Equal(1, accent.Length, 1e-9);
        Assert.Equal(2 * 0.4 / 0.5, accent.Thumb, 1e-9);
        Assert.Equal(0, accents.At(62, 25).Strokes);
    }

    private static ImmutableArray<HeardBeat> Read(ImmutableArray<HeardNote> notes)
    {
        var curves = Activations.Of([.. Thumb, .. Thumb.Select(t => t + 0.25)], _ => false, height: 0.5);
        return new BeatReading(curves, notes).Read(Claims.None with { Tempo = TempoRange.About(120) }, new(), TestContext.Current.CancellationToken).Beats;
    }

    private static void AssertOnThumb(ImmutableArray<HeardBeat> beats) =>
        Assert.All(beats, b => Assert.InRange(Thumb.Min(t => Math.Abs(t - b.Time.Value)), 0, 0.03));

    private static HeardNote Note(int midi, double at) => new(midi, Seconds.FromSeconds(at), Seconds.FromSeconds(at + 0.4), 0.9, 0.6);
}
