using System.Collections.Immutable;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>Finds the accents of notes about any moment, for a beat of any length.</summary>
internal sealed class NoteAccents
{
    /// <summary>Notes from here up are not low: E3, the fretted notes of a guitar's two lowest strings and a bass.</summary>
    private const int LowBelowMidi = 52;

    /// <summary>Onsets this close together are one stroke.</summary>
    private const double Together = 0.06;

    /// <summary>How near to a moment, in beats, a stroke counts for it.</summary>
    private const double Reach = 0.15;

    /// <summary>A stroke of more notes is a chord, whose lowest note may be no thumb's.</summary>
    private const int MostByThumb = 2;

    private const int Classes = 12;

    private readonly Stroke[] strokes;
    private readonly int[] firstFrom;
    private readonly float[] sounding;
    private readonly float[] basses;
    private readonly int frames;

    /// <summary>Notes that start together.</summary>
    /// <param name="Time">In frames.</param>
    /// <param name="Low">The lowest note's length in frames, where it is low; else 0.</param>
    /// <param name="Gap">Frames until the next stroke.</param>
    private readonly record struct Stroke(double Time, int Notes, double Low, double Gap, double Loudness);

    /// <param name="notes">Any order.</param>
    public NoteAccents(ImmutableArray<HeardNote> notes, int frames)
    {
        this.frames = frames;
        HeardNote[] rising = [.. notes.OrderBy(n => n.Onset)];
        strokes = Strokes(rising);
        firstFrom = new int[frames + 2];
        for (int f = 0, s = 0; f < firstFrom.Length; f++)
        {
            while (s < strokes.Length && strokes[s].Time < f)
                s++;
            firstFrom[f] = s;
        }
        (sounding, basses) = Sounding(rising, frames);
    }

    /// <summary>When something is struck, in seconds, rising; notes that start together are one stroke.</summary>
    public static ImmutableArray<double> Moments(ImmutableArray<HeardNote> notes) =>
        [.. Strokes([.. notes.OrderBy(n => n.Onset)]).Select(s => s.Time / PulseEvidence.FrameRate)];

    /// <summary>How many strokes fall between two frames, both left out by the reach of a beat of that length.</summary>
    public int Between(int from, int to)
    {
        var reach = Reach * (to - from);
        var count = 0;
        for (var s = First(from + reach); s < strokes.Length && strokes[s].Time < to - reach; s++)
            count++;
        return count;
    }

    /// <summary>The accents of one moment.</summary>
    /// <param name="interval">The length of a beat in frames.</param>
    public Accent At(double frame, int interval)
    {
        var sum = default(Accent);
        for (var s = First(frame - Reach * interval); s < strokes.Length && strokes[s].Time <= frame + Reach * interval; s++)
            sum = Sum(sum, Of(strokes[s], interval));
        return sum with { Change = Difference(sounding, frame, interval), BassChange = Difference(basses, frame, interval) };
    }

    private int First(double frame)
    {
        var s = firstFrom[Math.Clamp((int)frame, 0, frames)];
        while (s < strokes.Length && strokes[s].Time < frame)
            s++;
        return s;
    }

    private static Accent Of(Stroke stroke, int interval)
    {
        var low = Math.Min(1, stroke.Low / interval);
        return new(stroke.Notes <= MostByThumb ? stroke.Notes * low : 0, low, 0, 0, Math.Min(stroke.Gap / interval, 2), stroke.Loudness, 1);
    }

    private static Accent Sum(Accent a, Accent b) =>
        new(a.Thumb + b.Thumb, a.Low + b.Low, 0, 0, Math.Max(a.Length, b.Length), a.Loudness + b.Loudness, 1);

    private static Stroke[] Strokes(HeardNote[] rising)
    {
        var found = new List<HeardNote[]>();
        for (int from = 0, to; from < rising.Length; from = to)
        {
            to = from + 1;
            while (to < rising.Length && (rising[to].Onset - rising[from].Onset).Value < Together)
                to++;
            found.Add(rising[from..to]);
        }
        var loudness = found.Select(f => f.Sum(n => n.Strength)).DefaultIfEmpty(1).Average() + 1e-6;
        return [.. found.Select((f, i) => Of(f, i + 1 < found.Count ? found[i + 1][0].Onset.Value : f[0].End.Value, loudness))];
    }

    private static Stroke Of(HeardNote[] notes, double next, double loudness)
    {
        var (lowest, rate, start) = (notes.MinBy(n => n.Midi)!, PulseEvidence.FrameRate, notes[0].Onset.Value);
        var low = lowest.Midi < LowBelowMidi ? (lowest.End - lowest.Onset).Value * rate : 0;
        return new(start * rate, notes.Length, low, (next - start) * rate, notes.Sum(n => n.Strength) / loudness);
    }

    /// <summary>How many frames each pitch class has sounded up to a frame, and as the lowest note; both of shape (frames + 1, 12).</summary>
    private static (float[] All, float[] Lowest) Sounding(HeardNote[] notes, int frames)
    {
        var (all, lowest, bass) = (new float[(frames + 1) * Classes], new float[(frames + 1) * Classes], new int[frames]);
        foreach (var note in notes)
        {
            var (from, to) = (Frame(note.Onset.Value, frames), Frame(note.End.Value, frames));
            for (var f = from; f < to; f++)
            {
                all[(f + 1) * Classes + note.Midi % Classes]++;
                bass[f] = bass[f] == 0 ? note.Midi : Math.Min(bass[f], note.Midi);
            }
        }
        for (var f = 0; f < frames; f++)
        {
            if (bass[f] > 0)
                lowest[(f + 1) * Classes + bass[f] % Classes] = 1;
            for (var c = 0; c < Classes; c++)
            {
                all[(f + 1) * Classes + c] += all[f * Classes + c];
                lowest[(f + 1) * Classes + c] += lowest[f * Classes + c];
            }
        }
        return (all, lowest);
    }

    private static int Frame(double seconds, int frames) => Math.Clamp((int)Math.Round(seconds * PulseEvidence.FrameRate), 0, frames);

    /// <summary>How different the pitch classes of the beat after a moment are from those of the beat before: 0 alike, 1 nothing in common.</summary>
    private double Difference(float[] sums, double frame, int interval)
    {
        int At(double f) => Math.Clamp((int)Math.Round(f), 0, frames) * Classes;
        var (a, b, c) = (At(frame - interval), At(frame), At(frame + interval));
        var (dot, first, second) = (0.0, 0.0, 0.0);
        for (var k = 0; k < Classes; k++)
        {
            double before = sums[b + k] - sums[a + k], after = sums[c + k] - sums[b + k];
            (dot, first, second) = (dot + before * after, first + before * before, second + after * after);
        }
        return first == 0 || second == 0 ? 0 : 1 - dot / Math.Sqrt(first * second);
    }
}
