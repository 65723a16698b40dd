using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>
/// What the chord network looks at in a span: <see cref="Groups"/> rows of twelve pitch classes (C first), then
/// <see cref="Scalars"/> single values. Turning every row by a root's pitch class gives what the same music a transposition
/// away would give, so one small network serves all twelve roots.
/// </summary>
internal static class ChordInput
{
    public const int Groups = 10;
    public const int Scalars = 5;
    public const int Width = 12 * Groups + Scalars;

    /// <summary>Pitches below D3 count as low: the two lowest strings of a guitar in standard tuning, and a bass.</summary>
    private const int LowBelowMidi = 50;

    private const int Around = 4;

    /// <param name="contents">What sounds in each span (<see cref="ChordSpan.Contents"/>).</param>
    /// <returns>A row of <see cref="Width"/> values for each span.</returns>
    public static float[][] Of(NoteEvidence evidence, IReadOnlyList<ChordSpan> spans, PitchClassContent[] contents, CancellationToken ct)
    {
        var (low, onset) = (new double[spans.Count][], new double[spans.Count][]);
        Parallel.For(0, spans.Count, new ParallelOptions { CancellationToken = ct }, i => (low[i], onset[i]) = LowAndOnset(evidence, spans[i]));
        return [.. Enumerable.Range(0, spans.Count).Select(i => Row(i))];

        float[] Row(int i)
        {
            var (before, after) = (contents[Math.Max(0, i - 1)], contents[Math.Min(spans.Count - 1, i + 1)]);
            var near = contents[Math.Max(0, i - Around)..Math.Min(spans.Count, i + Around + 1)];
            double[] wide = [.. Enumerable.Range(0, 12).Select(pc => near.Average(c => c.Amount[pc]))];
            var here = contents[i];
            double[][] groups = [here.Sounding, here.Amount, low[i], here.Bass, onset[i], before.Sounding, before.Bass, after.Sounding, after.Bass, wide];
            double[] scalars = [here.Silence, before.Silence, after.Silence, (spans[i].End - spans[i].Start).Value, spans[i].ChangeChance];
            return [.. groups.SelectMany(g => g).Concat(scalars).Select(v => (float)v)];
        }
    }

    /// <summary>A row as the network sees it for one root.</summary>
    public static void Turn(ReadOnlySpan<float> row, int root, Span<float> turned)
    {
        for (var g = 0; g < Groups; g++)
        {
            for (var pc = 0; pc < 12; pc++)
                turned[12 * g + pc] = row[12 * g + (pc + root) % 12];
        }
        row[(12 * Groups)..].CopyTo(turned[(12 * Groups)..]);
    }

    private static (double[] Low, double[] Onset) LowAndOnset(NoteEvidence evidence, ChordSpan span)
    {
        var (first, last) = (evidence.FrameAt(span.Start), evidence.FrameAt(span.End));
        var (low, absent) = (new double[12], Enumerable.Repeat(1.0, 12).ToArray());
        for (var p = 0; p < evidence.Pitches; p++)
        {
            var (sum, peak) = (0.0, 0f);
            for (var f = first; f <= last; f++)
            {
                sum += evidence.Sounding[f, p];
                peak = Math.Max(peak, f < last ? evidence.Onset[f, p] : 0);
            }
            var pitchClass = (evidence.LowestMidi + p) % 12;
            if (evidence.LowestMidi + p < LowBelowMidi)
                low[pitchClass] += sum / (last - first + 1);
            absent[pitchClass] *= 1 - Math.Min(0.999, peak);
        }
        return (low, [.. absent.Select(a => 1 - a)]);
    }
}
