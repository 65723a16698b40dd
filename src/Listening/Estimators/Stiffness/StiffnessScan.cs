using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Stiffness;

/// <summary>Measures how stiff the string of each note is, from its partials in the recording.</summary>
internal static class StiffnessScan
{
    /// <summary>A room keeps a note that long.</summary>
    private const double RingsOn = 0.03;

    /// <param name="notes">Rising by onset.</param>
    /// <param name="a4">What they are counted from.</param>
    public static StiffnessEvidence Of(ISound mono, ImmutableArray<HeardNote> notes, Hertz a4, CancellationToken ct)
    {
        var (finder, likelihood, longest) = (new NotePartials(mono, a4), new StiffnessLikelihood(StiffnessModel.Shipped.Partials), Longest(notes));
        var measured = new List<(HeardNote, double[])>();
        for (var i = 0; i < notes.Length; i++)
        {
            ct.ThrowIfCancellationRequested();
            var others = Others(notes, i, longest);
            if (finder.Of(notes[i], others) is not { Count: > 0 } partials)
                continue;
            var logs = new double[StiffnessGrid.Count];
            likelihood.Weigh(partials, others.Count, logs);
            measured.Add((notes[i], logs));
        }
        return StiffnessEvidence.Of(measured);
    }

    /// <summary>What sounds while a note is listened to.</summary>
    private static List<HeardNote> Others(ImmutableArray<HeardNote> notes, int note, double longest)
    {
        var from = notes[note].Onset.Value;
        var until = Math.Min(from + NotePartials.LongestLook, notes[note].End.Value);
        var others = new List<HeardNote>();
        for (var i = note - 1; i >= 0 && notes[i].Onset.Value > from - longest; i--)
        {
            if (notes[i].End.Value > from + RingsOn)
                others.Add(notes[i]);
        }
        for (var i = note + 1; i < notes.Length && notes[i].Onset.Value < until; i++)
            others.Add(notes[i]);
        return others;
    }

    private static double Longest(ImmutableArray<HeardNote> notes) => notes.IsEmpty ? 0 : notes.Max(n => (n.End - n.Onset).Value);
}
