using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>
/// Weighs a claimed chord over its span: how much of what sounds it explains, and how much of it sounds, against the
/// best of the usual chords on any root.
/// </summary>
public sealed class ChordWeigher(Hearing hearing, CheckOptions options)
{
    private static readonly ImmutableArray<ChordQuality> Rivals =
    [
        ChordQuality.Major, ChordQuality.Minor, ChordQuality.Dominant7, ChordQuality.Major7, ChordQuality.Minor7,
        ChordQuality.SuspendedFourth, ChordQuality.SuspendedSecond, ChordQuality.Diminished,
    ];

    /// <param name="sounding">How strongly each MIDI pitch sounds over the span (<see cref="PitchStrengths"/>).</param>
    public Finding Weigh(Chord claim, IReadOnlyDictionary<int, double> sounding, Seconds start, Seconds end, Place where)
    {
        var chroma = Chroma(sounding);
        var own = Fit(chroma, claim.PitchClasses, claim.IsNone);
        var heard = HeardChord(start, end);
        var best = Best(chroma, heard);
        var support = Math.Clamp(own <= 0 ? 0 : own / Math.Max(best.Fit, 1e-6), 0, 1);
        // Near-ties with the best chord are support; half of its fit is none.
        support = Math.Clamp((support - 0.5) / 0.5, 0, 1) * (heard == claim ? 1 : 0.95);
        if (heard == claim)
            support = Math.Max(support, 0.6);
        var verdict = options.Judge(support);
        var instead = verdict == Verdict.Supported || best.Chord == claim ? null : heard ?? best.Chord;
        return new(ClaimKind.Chord, verdict, support, where, claim.ToString(), instead is null ? null : $"{instead} heard", instead?.ToString());
    }

    private Chord? HeardChord(Seconds start, Seconds end) => hearing.Chords
        .Select(c => (c.Chord.Best, Overlap: Math.Min(c.End.Value, end.Value) - Math.Max(c.Start.Value, start.Value)))
        .Where(c => c.Overlap > 0)
        .GroupBy(c => c.Best)
        .MaxBy(g => g.Sum(c => c.Overlap))?.Key;

    private static (Chord Chord, double Fit) Best(double[] chroma, Chord? heard)
    {
        var all = Enumerable.Range(0, 12)
            .SelectMany(pc => Rivals.Select(q => Chord.Of(PitchName.FromPitchClass(pc), q)))
            .Concat(heard is null ? [] : [heard]);
        return all.Select(c => (c, Fit(chroma, c.PitchClasses, c.IsNone))).MaxBy(c => c.Item2);
    }

    private static double[] Chroma(IReadOnlyDictionary<int, double> sounding)
    {
        var chroma = new double[12];
        foreach (var (midi, strength) in sounding)
            chroma[midi % 12] = Math.Max(chroma[midi % 12], strength);
        return chroma;
    }

    /// <summary>Cosine between what sounds and the chord's notes; for "no chord", silence.</summary>
    private static double Fit(double[] chroma, ImmutableArray<int> notes, bool none)
    {
        var power = Math.Sqrt(chroma.Sum(c => c * c));
        if (none)
            return Math.Max(0, 1 - power);
        return power < 0.05 ? 0 : notes.Sum(n => chroma[n]) / (power * Math.Sqrt(notes.Length));
    }
}
