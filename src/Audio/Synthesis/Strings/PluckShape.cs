namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>
/// What a pluck puts into the string: a short burst rounded by the finger or pick, sloped as the force of a displaced
/// string on its bridge is (1/n), with the notches of the plucking place (Jaffe &amp; Smith 1983).
/// </summary>
internal static class PluckShape
{
    /// <summary>Samples of one pluck, scaled so that the ringing note starts at an RMS level equal to the strength.</summary>
    public static double[] Of(StringSet set, double frequency, double strength, double rate, Noise noise)
    {
        var period = rate / frequency;
        var burst = Rounded(set, frequency, strength, rate, noise, (int)(2 * period) + 8);
        var combed = Combed(burst, set.PluckPlace * (1 + 0.1 * noise.Next()) * period);
        var energy = combed.Sum(x => x * x);
        var scale = strength / Math.Sqrt(energy / period);
        return [.. combed.Select(x => x * scale)];
    }

    private static double[] Rounded(StringSet set, double frequency, double strength, double rate, Noise noise, int length)
    {
        var (soft, hard) = (set.PluckBrightness.Soft.Value, set.PluckBrightness.Hard.Value);
        var finger = OnePole.LowPass(soft * Math.Pow(hard / soft, Math.Clamp(strength, 0, 1)), rate);
        var finger2 = finger;
        var slope = OnePole.LowPass(1.2 * frequency, rate);
        var scrapeSamples = Math.Min(length, (int)(0.004 * rate));
        var burst = new double[length];
        for (var i = 0; i < length; i++)
        {
            var scrape = i < scrapeSamples ? set.Scrape * noise.Next() / Math.Sqrt(scrapeSamples) * 3 : 0;
            burst[i] = slope.Next(finger2.Next(finger.Next((i == 0 ? 1 : 0) + scrape)));
        }
        return burst;
    }

    /// <summary>The burst less its echo from the nearer end of the string.</summary>
    private static double[] Combed(double[] burst, double lag)
    {
        var whole = Math.Max(1, (int)lag);
        var part = Math.Max(0, lag - whole);
        var combed = new double[burst.Length];
        for (var i = 0; i < burst.Length; i++)
        {
            var near = i >= whole ? burst[i - whole] : 0;
            var far = i > whole ? burst[i - whole - 1] : 0;
            combed[i] = burst[i] - 0.95 * (near + part * (far - near));
        }
        return combed;
    }
}
