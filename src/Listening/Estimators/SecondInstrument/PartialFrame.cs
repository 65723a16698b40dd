namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>The spectral peaks of one moment.</summary>
internal sealed class PartialFrame
{
    public const int Most = 70;
    public const float BucketCents = 20;
    private const double LowestHertz = 60;
    private const int Buckets = 430;

    private readonly short[] byPitch = new short[Buckets];

    /// <summary>Frequencies in Hz, rising; only the first <see cref="Count"/> count.</summary>
    public float[] Hertz { get; } = new float[Most];

    /// <summary>Amplitudes: 1 for a sine of amplitude 1.</summary>
    public float[] Level { get; } = new float[Most];

    /// <summary>Where in the stereo picture, −1 left to 1 right; 0 everywhere for one channel.</summary>
    public float[] Side { get; } = new float[Most];

    public int Count { get; private set; }

    /// <summary>Amplitudes through a short window, which tells moments better and pitches worse: one value for each <see cref="BriefHertz"/>.</summary>
    public float[] Brief { get; } = new float[PartialReader.BriefSize / 2 + 1];

    /// <summary>The frequency from one value of <see cref="Brief"/> to the next.</summary>
    public double BriefHertz { get; set; }

    public void Clear()
    {
        Count = 0;
        Array.Fill(byPitch, (short)-1);
    }

    /// <summary>Adds a peak; where two share 20 cents, the louder is the one found again.</summary>
    public void Add(float hertz, float level, float side)
    {
        if (Count == Most)
            return;
        (Hertz[Count], Level[Count], Side[Count]) = (hertz, level, side);
        var bucket = BucketOf(hertz);
        if (bucket is >= 0 and < Buckets && (byPitch[bucket] < 0 || Level[byPitch[bucket]] < level))
            byPitch[bucket] = (short)Count;
        Count++;
    }

    /// <summary>The nearest peak within 45 cents; −1 where there is none.</summary>
    public int Nearest(double hertz)
    {
        var (middle, best, bestOff) = (BucketOf(hertz), -1, 0.0263);
        for (var bucket = Math.Max(0, middle - 3); bucket <= Math.Min(Buckets - 1, middle + 3); bucket++)
        {
            if (byPitch[bucket] is not (>= 0 and var peak))
                continue;
            var off = Math.Abs(Hertz[peak] / hertz - 1);
            if (off < bestOff)
                (best, bestOff) = (peak, off);
        }
        return best;
    }

    /// <summary>The amplitude near a frequency through the short window.</summary>
    public float BriefAt(double hertz)
    {
        var k = (int)Math.Round(hertz / BriefHertz);
        return k < 1 || k >= Brief.Length - 1 ? 0 : Math.Max(Brief[k], Math.Max(Brief[k - 1], Brief[k + 1]));
    }

    private static int BucketOf(double hertz) => (int)(1200 / BucketCents * Math.Log2(hertz / LowestHertz));
}
