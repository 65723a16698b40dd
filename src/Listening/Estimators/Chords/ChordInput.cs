using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>
/// What the chord network looks at in a span: <see cref="Rows"/> rows of twelve pitch classes (C first), then
/// <see cref="Scalars"/> single values. training/chords/spans.py computes the same.
/// </summary>
/// <remarks>
/// The rows: what sounds at all, how much, what is lowest, what is highest, how much of each sounds low, in the middle and high, what is struck,
/// what is the lowest struck, how much sounds in the first half and in the second. The single values: the chance of silence, the length
/// (log 2 of seconds), and 1 for the place in the bar: between beats, on a beat, on a downbeat.
/// </remarks>
internal static class ChordInput
{
    public const int Rows = 11;
    public const int Scalars = 5;
    public const int Width = 12 * Rows + Scalars;

    /// <summary>Pitches below E3 are low.</summary>
    private const int LowBelowMidi = 52;

    /// <summary>Pitches from F4 up are high.</summary>
    private const int HighFromMidi = 65;

    /// <returns>A row of <see cref="Width"/> values for each span.</returns>
    public static float[][] Of(NotePosteriorgram evidence, IReadOnlyList<ChordSpan> spans, CancellationToken ct)
    {
        var rows = new float[spans.Count][];
        Parallel.For(0, spans.Count, new ParallelOptions { CancellationToken = ct }, i => rows[i] = Row(evidence, spans[i]));
        return rows;
    }

    private static float[] Row(NotePosteriorgram evidence, ChordSpan span)
    {
        var first = evidence.FrameAt(span.Start);
        var last = Math.Min(Math.Max(first + 1, evidence.FrameAt(span.End)), evidence.Frames);
        var middle = first + (last - first) / 2;
        var loud = PitchClassContent.Means(evidence, first, last, 3);
        var steady = PitchClassContent.Means(evidence, first, last, 1);
        var struck = Struck(evidence, first, last);
        var (lowest, lowestStruck) = (Lowest(steady), Lowest(struck));
        var highest = Lowest([.. steady.Reverse()]);
        Array.Reverse(highest);
        double[] Between(int from, int below) => [.. steady.Select((s, p) => evidence.LowestMidi + p >= from && evidence.LowestMidi + p < below ? s : 0)];
        double[][] rows =
        [
            Either(loud), Folded(loud), Folded(lowest), Folded(highest), Folded(Between(0, LowBelowMidi)), Folded(Between(LowBelowMidi, HighFromMidi)),
            Folded(Between(HighFromMidi, 128)), Either(struck), Folded(lowestStruck),
            Folded(PitchClassContent.Means(evidence, first, Math.Max(first + 1, middle), 1)),
                Folded(PitchClassContent.Means(evidence, Math.Min(middle, last - 1), last, 1)),
        ];
        double[] scalars = [1 - lowest.Sum(), Math.Log2((span.End - span.Start).Value), Is(SpanPlace.Between), Is(SpanPlace.Beat), Is(SpanPlace.Downbeat)];
        return [.. rows.SelectMany(r => r).Concat(scalars).Select(v => (float)v)];

        double Is(SpanPlace place) => span.Place == place ? 1 : 0;

        double[] Folded(double[] pitches)
        {
            var sums = new double[12];
            for (var p = 0; p < pitches.Length; p++)
                sums[(evidence.LowestMidi + p) % 12] += pitches[p];
            return sums;
        }

        double[] Either(double[] pitches)
        {
            var absent = Enumerable.Repeat(1.0, 12).ToArray();
            for (var p = 0; p < pitches.Length; p++)
                absent[(evidence.LowestMidi + p) % 12] *= 1 - pitches[p];
            return [.. absent.Select(a => 1 - a)];
        }
    }

    /// <summary>How surely each pitch is struck within the frames.</summary>
    private static double[] Struck(NotePosteriorgram evidence, int first, int last)
    {
        var struck = new double[evidence.Pitches];
        for (var p = 0; p < struck.Length; p++)
        {
            for (var f = first; f < last; f++)
                struck[p] = Math.Max(struck[p], evidence.Onset[f, p]);
            struck[p] = Math.Min(0.999, struck[p]);
        }
        return struck;
    }

    /// <summary>For each, the chance that it is there and none before it.</summary>
    private static double[] Lowest(double[] chances)
    {
        var none = 1.0;
        return [.. chances.Select(c =>
        {
            var first = c * none;
            none *= 1 - c;
            return first;
        })];
    }
}
