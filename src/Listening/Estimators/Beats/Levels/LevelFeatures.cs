using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>Hears what tells one level of the beat from another: how often the chord changes, where in the beat low sound starts.</summary>
internal sealed class LevelFeatures
{
    private const float Changed = 0.5f;
    private const int ChangeApart = 10;
    private const double Slight = 0.05;

    private readonly PulseSound heard;
    private readonly NoteAccents accents;
    private readonly int[] changes;

    public LevelFeatures(PulseSound heard, ImmutableArray<HeardNote> notes)
    {
        (this.heard, accents) = (heard, new(notes, heard.Curves.Frames));
        changes = [.. Changes(heard.Curves.Change)];
    }

    /// <param name="row">At the level, in frames; two beats at least.</param>
    public LevelTraits Of(IReadOnlyList<ReadBeat> row, CancellationToken cancellation)
    {
        int[] frames = [.. row.Select(b => b.Frame)];
        var beats = frames.Length - 1.0;
        var chords = changes.Count(c => c >= frames[0] && c <= frames[^1]);
        return new(60 * PulseEvidence.FrameRate * beats / (frames[^1] - frames[0]), Math.Log2((chords + 1) / (beats + 1)), LowQuarters(frames, cancellation));
    }

    /// <summary>Whether beats are divided in two rather than in three: only then is twice as fast a level of theirs.</summary>
    public bool AreHalved(IReadOnlyList<ReadBeat> row) => Struck(row, 0.5) >= Math.Max(Struck(row, 1 / 3.0), Struck(row, 2 / 3.0));

    /// <summary>The share of beats where something is struck so much of a beat before.</summary>
    private double Struck(IReadOnlyList<ReadBeat> row, double before) =>
        row.Skip(1).Average(b => accents.At(b.Frame - before * b.Interval, b.Interval).Strokes > 0 ? 1.0 : 0);

    private double LowQuarters(int[] frames, CancellationToken cancellation)
    {
        var gaps = frames.Skip(1).Zip(frames, (b, a) => b - a).ToArray();
        var graph = new RowGraph(frames, gaps.Min(), gaps.Max());
        var sound = new StepSound(graph, heard.Bands, cancellation);
        var low = Enumerable.Range(1, graph.Moments - 1).Select(m => sound.Rhythm(graph.FirstAt(m) - 1)[..StepSound.Parts].ToArray()).ToArray();
        return Math.Log((low.Average(q => (q[1] + q[3]) / 2) + Slight) / (low.Average(q => q[0]) + Slight));
    }

    private static IEnumerable<int> Changes(float[] curve)
    {
        var last = -ChangeApart;
        for (var f = 0; f < curve.Length; f++)
        {
            if (curve[f] < Changed || f - last < ChangeApart)
                continue;
            yield return last = f;
        }
    }
}
