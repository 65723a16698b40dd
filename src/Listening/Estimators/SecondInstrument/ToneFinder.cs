namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// The pitches of a frame, one after another: the strongest harmonic sum, then what is left when half of a smooth envelope of it
/// is taken away (A. Klapuri, "Multiple fundamental frequency estimation by summing harmonic amplitudes", ISMIR 2006, with
/// peaks in place of spectra). Taking only half keeps a line that doubles the guitar's harmonics. One instance serves one thread.
/// </summary>
internal sealed class ToneFinder(double a4)
{
    public const int Most = 14;
    private const int MostRoots = 2 * PartialFrame.Most;
    private const double LowestHertz = 70, HighestHertz = 2400, HighestPartial = 8000, LowestBrief = 500;
    private const double Alpha = 52, Beta = 320;
    private const float LeastShare = 0.07f, TakenAway = 0.5f, Compression = 0.65f, WithoutFundamental = 0.85f;

    private readonly float[] left = new float[PartialFrame.Most];
    private readonly float[] weights = new float[PartialFrame.Most];
    private readonly double[] roots = new double[MostRoots];
    private readonly float[] shares = new float[MostRoots];
    private readonly short[] matches = new short[MostRoots * Tone.Harmonics];
    private readonly float[] discounts = new float[MostRoots * Tone.Harmonics];
    private int rootCount;

    /// <summary>Fills the tones found, the most salient first.</summary>
    /// <returns>How many.</returns>
    public int Find(PartialFrame frame, Span<Tone> tones)
    {
        Array.Copy(frame.Level, left, frame.Count);
        for (var i = 0; i < frame.Count; i++)
            weights[i] = MathF.Pow(left[i], Compression);
        ListRoots(frame);
        var (found, first) = (0, 0f);
        while (found < Most)
        {
            var (root, salience) = Strongest();
            first = Math.Max(first, salience);
            if (salience <= 0 || salience < LeastShare * first)
                break;
            tones[found++] = Take(frame, root, salience / first);
        }
        return found;
    }

    /// <summary>Every peak may be a fundamental; low ones also a second harmonic, since bodies swallow low fundamentals.</summary>
    private void ListRoots(PartialFrame frame)
    {
        rootCount = 0;
        for (var i = 0; i < frame.Count; i++)
        {
            if (frame.Hertz[i] is >= (float)LowestHertz and <= (float)HighestHertz)
                ListRoot(frame, frame.Hertz[i], 1);
            if (frame.Hertz[i] is > 140 and < 420)
                ListRoot(frame, frame.Hertz[i] / 2, WithoutFundamental);
        }
    }

    private void ListRoot(PartialFrame frame, double hertz, float share)
    {
        (roots[rootCount], shares[rootCount]) = (hertz, share);
        for (var h = 1; h <= Tone.Harmonics; h++)
        {
            var at = rootCount * Tone.Harmonics + h - 1;
            matches[at] = (short)(h * hertz < HighestPartial ? frame.Nearest(h * hertz) : -1);
            discounts[at] = (float)((hertz + Alpha) / (h * hertz + Beta));
        }
        rootCount++;
    }

    private (int Root, float Salience) Strongest()
    {
        var (best, bestSalience) = (-1, 0f);
        for (var root = 0; root < rootCount; root++)
        {
            if (shares[root] == 1 && matches[root * Tone.Harmonics] is >= 0 and var own && weights[own] <= 0)
                continue;
            var sum = 0f;
            for (var at = root * Tone.Harmonics; at < (root + 1) * Tone.Harmonics; at++)
            {
                if (matches[at] >= 0)
                    sum += weights[matches[at]] * discounts[at];
            }
            if (sum * shares[root] > bestSalience)
                (best, bestSalience) = (root, sum * shares[root]);
        }
        return (best, bestSalience);
    }

    private Tone Take(PartialFrame frame, int root, float salience)
    {
        var tone = new Tone { Salience = salience };
        var matched = matches.AsSpan(root * Tone.Harmonics, Tone.Harmonics);
        TakeAway(frame, ref tone, matched);
        if (shares[root] < 1)
            shares[root] = 0;
        double pitch = 0, weight = 0, side = 0, power = 0;
        for (var h = 1; h <= Tone.Harmonics; h++)
        {
            if (matched[h - 1] is not (>= 0 and var peak))
                continue;
            var own = tone.Level[h - 1];
            var w = own * (h <= 4 ? 1 : 0.2);
            (pitch, weight) = (pitch + w * Math.Log2(frame.Hertz[peak] / h), weight + w);
            (side, power) = (side + frame.Side[peak] * own * own, power + own * own);
        }
        var mean = weight > 0 ? pitch / weight : Math.Log2(roots[root]);
        tone.Midi = (float)(69 + 12 * (mean - Math.Log2(a4)));
        tone.Side = power > 0 ? (float)(side / power) : 0;
        tone.Stretch = Stretch(frame, mean, in tone, matched);
        return tone;
    }

    /// <summary>A harmonic is its own up to a little above the middle of it and its neighbours.</summary>
    private void TakeAway(PartialFrame frame, ref Tone tone, ReadOnlySpan<short> matched)
    {
        Span<float> raw = stackalloc float[Tone.Harmonics + 2];
        raw.Clear();
        for (var h = 1; h <= Tone.Harmonics; h++)
            raw[h] = matched[h - 1] < 0 ? 0 : left[matched[h - 1]];
        raw[0] = raw[1];
        for (var h = 1; h <= Tone.Harmonics; h++)
        {
            if (matched[h - 1] is not (>= 0 and var peak))
                continue;
            var own = Math.Min(raw[h], Middle(raw[h - 1], raw[h], raw[h + 1]) * (h == 1 ? 10 : 1.3f));
            tone.Level[h - 1] = own;
            if (own > 0.6f * raw[h] && frame.Hertz[peak] > LowestBrief)
                tone.BriefPower += MathF.Pow(frame.BriefAt(frame.Hertz[peak]), 2);
            left[peak] = h == 1 ? 0 : Math.Max(0, raw[h] - TakenAway * own);
            weights[peak] = left[peak] <= 0 ? 0 : MathF.Pow(left[peak], Compression);
        }
    }

    /// <summary>The mean deviation of harmonics 5 and up from the pitch of the lower ones.</summary>
    private static float Stretch(PartialFrame frame, double log, in Tone tone, ReadOnlySpan<short> matched)
    {
        double sum = 0, weight = 0;
        for (var h = 5; h <= Tone.Harmonics; h++)
        {
            if (matched[h - 1] < 0)
                continue;
            var w = tone.Level[h - 1];
            (sum, weight) = (sum + w * 1200 * (Math.Log2(frame.Hertz[matched[h - 1]] / h) - log), weight + w);
        }
        return weight > 0 ? (float)(sum / weight) : 0;
    }

    private static float Middle(float a, float b, float c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
