using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Makes notes and the contour of a line's stretches.</summary>
internal static class LineNotes
{
    /// <summary>Of stretches that overlap by more than two fifths of the shorter, the likelier (longer, louder) stays: for what sounds one pitch at a
    /// time.</summary>
    public static List<LineStretch> OneAtATime(IEnumerable<LineStretch> stretches)
    {
        var kept = new List<LineStretch>();
        foreach (var s in stretches.OrderByDescending(s => s.Chance * s.Length * Math.Pow(10, s.Level / 40)))
        {
            if (!kept.Any(k => k.Overlap(s) > 0.4 * Math.Min(k.Length, s.Length)))
                kept.Add(s);
        }
        return [.. kept.OrderBy(s => s.First)];
    }

    public static ImmutableArray<HeardLineNote> Of(IEnumerable<LineStretch> stretches) =>
        [.. stretches.Select(NoteOf).OrderBy(n => n.Onset).ThenBy(n => n.Midi)];

    /// <summary>At each frame the loudest stretch's pitch.</summary>
    public static PitchContour ContourOf(IEnumerable<LineStretch> stretches, int frames)
    {
        var (cents, confidence, loudest) = (new float[frames], new float[frames], new float[frames]);
        Array.Fill(loudest, float.MinValue);
        foreach (var s in stretches)
        {
            for (var f = s.First; f < Math.Min(frames, s.End); f++)
            {
                var cell = s.Cells[f - s.First];
                if (cell is null || s.Level <= loudest[f])
                    continue;
                loudest[f] = s.Level;
                cents[f] = MathF.Round(100 * (s.Midi - 69 + cell.Value.Off), 1);
                confidence[f] = MathF.Round(Math.Min(1, s.Chance), 3);
            }
        }
        return new(LineEstimator.Hop, [.. cents], [.. confidence]);
    }

    private static HeardLineNote NoteOf(LineStretch s) =>
        new(s.Midi, Cents.FromCents(Math.Round(100 * s.Off, 1)), LineEstimator.Hop * s.First, LineEstimator.Hop * s.End, Math.Round(s.Chance, 3));
}
