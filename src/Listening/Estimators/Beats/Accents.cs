using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Finds the accents at given moments.</summary>
internal sealed class Accents
{
    /// <summary>Notes from here up are not low: E3, the fretted notes of a guitar's two lowest strings and a bass.</summary>
    private const int LowBelowMidi = 52;

    /// <summary>Onsets this close together are one stroke.</summary>
    private const double Together = 0.06;

    /// <summary>How near to a moment, in beats, a stroke counts for it.</summary>
    private const double Reach = 0.15;

    /// <summary>A stroke of more notes is a chord, whose lowest note may be no thumb's.</summary>
    private const int MostByThumb = 2;

    private readonly HeardNote[] notes;
    private readonly double[] starts;
    private readonly Accent[] strokes;
    private readonly double[] onsets;
    private readonly double longest;
    private readonly double period;

    /// <param name="notes">Any order.</param>
    /// <param name="period">The length of a beat in seconds.</param>
    public Accents(ImmutableArray<HeardNote> notes, double period)
    {
        this.period = period;
        this.notes = [.. notes.OrderBy(n => n.Onset)];
        onsets = [.. this.notes.Select(n => n.Onset.Value)];
        longest = this.notes.Select(n => (n.End - n.Onset).Value).DefaultIfEmpty().Max();
        var found = new List<(double Start, HeardNote[] Notes)>();
        for (int from = 0, to; from < this.notes.Length; from = to)
        {
            to = from + 1;
            while (to < this.notes.Length && (this.notes[to].Onset - this.notes[from].Onset).Value < Together)
                to++;
            found.Add((this.notes[from].Onset.Value, this.notes[from..to]));
        }
        starts = [.. found.Select(f => f.Start)];
        strokes = [.. found.Select((f, i) => Of(f.Notes, i + 1 < found.Count ? found[i + 1].Start - f.Start : period))];
    }

    /// <summary>The accents of one moment.</summary>
    public Accent At(double time)
    {
        var sum = default(Accent);
        for (var s = FirstFrom(starts, time - Reach * period); s < starts.Length && starts[s] <= time + Reach * period; s++)
            sum = Sum(sum, strokes[s]);
        var (before, after) = (Sounding(time - period, time), Sounding(time, time + period));
        return sum with { Change = Difference(before.Classes, after.Classes), BassChange = before.Lowest >= 0 && after.Lowest >= 0 && (before.Lowest - after.Lowest) % 12 != 0 ? 1 : 0 };
    }

    private Accent Of(HeardNote[] stroke, double gap)
    {
        var lowest = stroke.MinBy(n => n.Midi)!;
        var length = Math.Min((lowest.End - lowest.Onset).Value, period) / period;
        var low = lowest.Midi < LowBelowMidi;
        return new(
            low && stroke.Length <= MostByThumb ? stroke.Length * length : 0,
            low ? length : 0, 0, 0, Math.Min(gap / period, 2), stroke.Sum(n => n.Strength), 1);
    }

    private static Accent Sum(Accent a, Accent b) =>
        new(a.Thumb + b.Thumb, a.Low + b.Low, 0, 0, Math.Max(a.Length, b.Length), a.Loudness + b.Loudness, 1);

    /// <summary>How long each pitch class sounds within a span, and its lowest note (−1 in silence).</summary>
    private (double[] Classes, int Lowest) Sounding(double from, double to)
    {
        var classes = new double[12];
        var lowest = -1;
        for (var n = FirstFrom(onsets, from - longest); n < notes.Length && notes[n].Onset.Value < to; n++)
        {
            var note = notes[n];
            var shared = Math.Min(to, note.End.Value) - Math.Max(from, note.Onset.Value);
            if (shared < 0.2 * (to - from))
                continue;
            classes[note.Midi % 12] += shared;
            lowest = lowest < 0 ? note.Midi : Math.Min(lowest, note.Midi);
        }
        return (classes, lowest);
    }

    private static int FirstFrom(double[] rising, double time)
    {
        var place = Array.BinarySearch(rising, time);
        return place < 0 ? ~place : place;
    }

    private static double Difference(double[] a, double[] b)
    {
        var (dot, first, second) = (0.0, 0.0, 0.0);
        for (var c = 0; c < a.Length; c++)
            (dot, first, second) = (dot + a[c] * b[c], first + a[c] * a[c], second + b[c] * b[c]);
        return first == 0 || second == 0 ? 0 : 1 - dot / Math.Sqrt(first * second);
    }
}
