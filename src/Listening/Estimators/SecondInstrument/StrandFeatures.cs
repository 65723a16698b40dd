namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// What is looked at to say whether a strand is a plucked string's or another's: whether its energy decays, how it starts and ends,
/// vibrato, scoops, its harmonics, whether they stand at whole multiples, and what else starts or sounds with it.
/// </summary>
internal sealed class StrandFeatures
{
    private const double FramesPerSecond = SecondInstrumentScan.FramesPerSecond;
    private static readonly float[] Relatives = [-24, -19, -12, 12, 19];

    private readonly List<Strand> strands;
    private readonly float[] mean;
    private readonly float loud, side;
    private readonly int[] starts;

    /// <param name="strands">All strands of the recording, by start.</param>
    public StrandFeatures(List<Strand> strands)
    {
        this.strands = strands;
        mean = [.. strands.Select(s => Mean(s, 0, s.Length))];
        var sorted = mean.Order().ToArray();
        loud = sorted.Length == 0 ? 0 : sorted[(int)(0.9 * (sorted.Length - 1))];
        side = strands.Count == 0 ? 0 : strands.Select(SideOf).Order().ElementAt(strands.Count / 2);
        starts = [.. strands.Select(s => s.First)];
    }

    public static int Count => 34 + Relatives.Length;

    public float[] Of(int index)
    {
        var strand = strands[index];
        var values = new List<float>(Count) { MathF.Log2(strand.Length), mean[index] - loud, strand.MedianMidi - 65 };
        AddEnvelope(strand, values);
        AddPitch(strand, values);
        AddTimbre(strand, values);
        AddCompany(index, values);
        return [.. values];
    }

    /// <summary>A strand's mean level in dB.</summary>
    public float Loudness(int index) => mean[index];

    public static float SideOf(Strand strand)
    {
        float sum = 0, weight = 0;
        foreach (var tone in strand.Tones)
            (sum, weight) = (sum + tone.Side * tone.Salience, weight + tone.Salience);
        return weight > 0 ? sum / weight : 0;
    }

    private static void AddEnvelope(Strand strand, List<float> values)
    {
        var level = Levels(strand, 1, Tone.Harmonics);
        var peak = Array.IndexOf(level, level.Max());
        var (n, late) = (level.Length, (int)(0.88 * level.Length));
        values.Add(peak / (float)n);
        values.Add(Math.Min(peak, 20));
        values.Add(Math.Min(20, Array.FindIndex(level, l => l > level[peak] - 3)));
        values.Add(Slope(level, Math.Min(peak, n / 2), late));
        values.Add(Slope(Levels(strand, 1, 2), Math.Min(peak, n / 2), late));
        values.Add(Slope(Levels(strand, 4, Tone.Harmonics), Math.Min(peak, n / 2), late));
        values.Add(level[n / 2] - level[peak]);
        values.Add(level[^1] - level[n / 2]);
        values.Add(level[0] - level[Math.Min(n - 1, 5)]);
        values.Add(Roughness(level));
        values.Add(Swing(level));
        var brief = Enumerable.Range(0, n).Select(strand.BriefDecibels).ToArray();
        var top = Array.IndexOf(brief, brief.Take(10).Max());
        values.Add(Math.Min(30, brief[top] - brief[0]));
        values.Add(Slope(brief, top, Math.Min(n, top + 16)));
    }

    private static void AddPitch(Strand strand, List<float> values)
    {
        var cents = strand.Tones.Select(t => 100 * (t.Midi - strand.MedianMidi)).ToArray();
        values.Add(MathF.Log2(1 + Roughness(cents)));
        values.Add(MathF.Log2(1 + Swing(cents)));
        values.Add(MathF.Log2(1 + cents.Max() - cents.Min()));
        values.Add(Math.Clamp(cents.Take(3).Average(), -80, 80));
        values.Add(Math.Abs(100 * (strand.MedianMidi - MathF.Round(strand.MedianMidi))));
        values.Add(strand.Tones.Average(t => Math.Clamp(t.Stretch, -30, 30)));
    }

    private static void AddTimbre(Strand strand, List<float> values)
    {
        var first = Decibels(strand.Tones.Average(t => t.Level[0]));
        for (var h = 2; h <= 8; h++)
            values.Add(Math.Max(-45, Decibels(strand.Tones.Average(t => t.Level[h - 1])) - first));
        var bright = Levels(strand, 4, Tone.Harmonics).Zip(Levels(strand, 1, 2), (high, low) => Math.Max(-50, high - low)).ToArray();
        values.Add(Roughness(bright));
    }

    private void AddCompany(int index, List<float> values)
    {
        var strand = strands[index];
        values.Add(Math.Abs(SideOf(strand) - side));
        values.Add(StartsNear(strand.First, 3) - 1);
        var (higher, louder, all) = (0f, 0f, 1e-6f);
        Span<float> relatives = stackalloc float[Relatives.Length];
        relatives.Fill(-40);
        for (var i = FirstThatMayReach(strand.First); i < strands.Count && strands[i].First < strand.End; i++)
        {
            var other = strands[i];
            var shared = (Math.Min(other.End, strand.End) - Math.Max(other.First, strand.First)) / (float)strand.Length;
            if (i == index || shared <= 0)
                continue;
            all += shared;
            higher += other.MedianMidi > strand.MedianMidi + 0.5f ? shared : 0;
            louder += mean[i] > mean[index] ? shared : 0;
            for (var r = 0; r < Relatives.Length; r++)
            {
                if (shared > 0.3f && Math.Abs(other.MedianMidi - strand.MedianMidi - Relatives[r]) < 0.4f)
                    relatives[r] = Math.Max(relatives[r], Math.Clamp(mean[i] - mean[index], -40, 40));
            }
        }
        values.Add(higher);
        values.Add(louder);
        foreach (var relative in relatives)
            values.Add(relative);
    }

    /// <summary>Strands are at most some seconds long, so older ones needn't be looked at.</summary>
    private int FirstThatMayReach(int frame)
    {
        var index = Array.BinarySearch(starts, Math.Max(0, frame - (int)(8 * FramesPerSecond)));
        index = index < 0 ? ~index : index;
        while (index > 0 && starts[index - 1] == starts[Math.Min(index, starts.Length - 1)])
            index--;
        return index;
    }

    private int StartsNear(int frame, int reach)
    {
        var (from, to) = (Lower(frame - reach), Lower(frame + reach + 1));
        return to - from;
    }

    private int Lower(int frame)
    {
        var (low, high) = (0, starts.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = starts[middle] < frame ? (middle + 1, high) : (low, middle);
        }
        return low;
    }

    private static float[] Levels(Strand strand, int first, int last) => [.. Enumerable.Range(0, strand.Length).Select(f => strand.Decibels(f, first, last))];

    private static float Mean(Strand strand, int from, int to)
    {
        var sum = 0f;
        for (var f = from; f < to; f++)
            sum += strand.Decibels(f);
        return sum / Math.Max(1, to - from);
    }

    private static float Decibels(float amplitude) => 20 * MathF.Log10(amplitude + 1e-5f);

    /// <summary>Straight-line slope in dB a second, held within ±80.</summary>
    private static float Slope(float[] level, int from, int to)
    {
        var n = to - from;
        if (n < 4)
            return 0;
        var middle = (n - 1) / 2f;
        float above = 0, below = 0;
        for (var i = 0; i < n; i++)
            (above, below) = (above + (i - middle) * level[from + i], below + (i - middle) * (i - middle));
        return (float)Math.Clamp(above / below * FramesPerSecond, -80, 80);
    }

    /// <summary>Root mean square of the difference from a straight line over the middle.</summary>
    private static float Roughness(float[] values)
    {
        var (from, to) = (values.Length / 8, values.Length - values.Length / 8);
        var n = to - from;
        if (n < 3)
            return 0;
        var (middle, average) = ((n - 1) / 2f, values.AsSpan(from..to).ToArray().Average());
        float above = 0, below = 0, square = 0;
        for (var i = 0; i < n; i++)
            (above, below) = (above + (i - middle) * values[from + i], below + (i - middle) * (i - middle));
        for (var i = 0; i < n; i++)
            square += MathF.Pow(values[from + i] - average - above / below * (i - middle), 2);
        return MathF.Sqrt(square / n);
    }

    /// <summary>The greatest amplitude of a swing at 4 to 7.5 times a second; 0 for strands under a quarter of a second.</summary>
    private static float Swing(float[] values)
    {
        if (values.Length < FramesPerSecond / 4)
            return 0;
        var (average, greatest) = (values.Average(), 0.0);
        for (var rate = 4.0; rate <= 7.5; rate += 0.7)
        {
            double real = 0, imaginary = 0;
            for (var i = 0; i < values.Length; i++)
            {
                var angle = 2 * Math.PI * rate * i / FramesPerSecond;
                var window = 1 - Math.Cos(2 * Math.PI * (i + 0.5) / values.Length);
                (real, imaginary) = (real + window * (values[i] - average) * Math.Cos(angle), imaginary + window * (values[i] - average) * Math.Sin(angle));
            }
            greatest = Math.Max(greatest, 2 * Math.Sqrt(real * real + imaginary * imaginary) / values.Length);
        }
        return (float)greatest;
    }
}
