using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>
/// What speaks for one level of the beat as a whole: how usual its tempo is, how many strokes and chords a beat holds, what starts on the beat, halfway and on
/// the quarters in low, middle and high sound, and whether strong beats and weak ones take turns (a bass and a backbeat do; P. Toiviainen and J. Snyder,
/// "Tapping to Bach", Music Perception 21, 2003; M. McKinney and D. Moelants, "Ambiguity in tempo perception", Music Perception 24, 2006).
/// </summary>
internal sealed class LevelFeatures
{
    /// <summary>The names of the features, in order, as models/levels.json gives their weights.</summary>
    public static readonly ImmutableArray<string> Names =
    [
        "usual tempo", "rows", "faster than the rows", "strokes", "strokes squared", "chords", "chords squared", "no stroke on the beat",
        "stroke halfway",
        "low halfway", "low quarters", "middle halfway", "middle quarters", "high halfway", "high quarters", "turns of two", "low turns", "middle turns",
        "harmony after one", "harmony after two", "harmony after four", "harmony after eight",
    ];

    private const float Changed = 0.5f;
    private const int ChangeApart = 10;
    private const double Slight = 0.05;

    private readonly PulseSound heard;
    private readonly TempoHabits habits;
    private readonly NoteAccents accents;
    private readonly double[] strokes;
    private readonly int[] changes;

    public LevelFeatures(PulseSound heard, ImmutableArray<HeardNote> notes, TempoHabits habits)
    {
        (this.heard, this.habits, accents) = (heard, habits, new(notes, heard.Curves.Frames));
        strokes = [.. NoteAccents.Moments(notes).Select(m => m * PulseEvidence.FrameRate)];
        changes = [.. Changes(heard.Curves.Change)];
    }

    /// <param name="row">At the level, in frames; two beats at least.</param>
    /// <param name="share">The share of all rows at this level.</param>
    /// <param name="isFaster">Whether the best of all rows is a slower one.</param>
    public double[] Of(IReadOnlyList<ReadBeat> row, double share, bool isFaster, CancellationToken cancellation)
    {
        int[] frames = [.. row.Select(b => b.Frame)];
        var beats = frames.Length - 1.0;
        var tempo = 60 * PulseEvidence.FrameRate * beats / (frames[^1] - frames[0]);
        var stroke = PerBeat(strokes.Count(s => s >= frames[0] && s <= frames[^1]), beats);
        var chord = PerBeat(changes.Count(c => c >= frames[0] && c <= frames[^1]), beats);
        double[] own =
        [
            habits.At(tempo), Math.Log(share + Slight), isFaster ? 1 : 0, stroke, stroke * stroke, chord, chord * chord, 1 - Struck(row, 0), Struck(row, 0.5),
        ];
        return [.. own, .. new LevelRhythm(heard, frames, cancellation).Values];
    }

    /// <summary>Whether beats are divided in two rather than in three: only then is twice as fast a level of theirs.</summary>
    public bool AreHalved(IReadOnlyList<ReadBeat> row) => Struck(row, 0.5) >= Math.Max(Struck(row, 1 / 3.0), Struck(row, 2 / 3.0));

    /// <summary>The share of beats where something is struck so much of a beat before.</summary>
    private double Struck(IReadOnlyList<ReadBeat> row, double before) =>
        row.Skip(1).Average(b => accents.At(b.Frame - before * b.Interval, b.Interval).Strokes > 0 ? 1.0 : 0);

    private static double PerBeat(int count, double beats) => Math.Log2((count + 1) / (beats + 1));

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
