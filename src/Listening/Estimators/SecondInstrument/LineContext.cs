namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// What the rest of the recording says of a strand, once every strand was weighed alone: whether there is a line at all, whether
/// the strand is like the line in tone, level and place, and whether likely strands start with it, come before and after, or stand
/// an octave from it.
/// </summary>
internal sealed class LineContext
{
    private const int Reach = 5, Join = 7, Profile = 6;

    private readonly List<Strand> strands;
    private readonly StrandFeatures features;
    private readonly double[] chances;
    private readonly float[] tone = new float[Profile];
    private readonly float level, side, coverage, sureness;
    private readonly int[] likely;

    /// <param name="chances">How likely each strand is the second instrument's, weighed alone.</param>
    public LineContext(List<Strand> strands, StrandFeatures features, double[] chances)
    {
        (this.strands, this.features, this.chances) = (strands, features, chances);
        likely = [.. Enumerable.Range(0, strands.Count).Where(i => chances[i] > 0.3)];
        double weight = 1e-6, levels = 0, sides = 0, frames = 0, sure = 0;
        foreach (var i in likely)
        {
            var w = chances[i] * strands[i].Length;
            (weight, levels, sides) = (weight + w, levels + w * features.Loudness(i), sides + w * StrandFeatures.SideOf(strands[i]));
            (frames, sure) = (frames + strands[i].Length, sure + w);
            for (var h = 0; h < Profile; h++)
                tone[h] += (float)w * ToneOf(strands[i], h);
        }
        for (var h = 0; h < Profile; h++)
            tone[h] /= (float)weight;
        (level, side) = ((float)(levels / weight), (float)(sides / weight));
        coverage = MathF.Log((float)(sure + 1) / (strands.Count == 0 ? 1 : strands.Max(s => s.End)));
        sureness = (float)(sure / Math.Max(1, frames));
    }

    public static int Count => 14;

    public float[] Of(int index)
    {
        var strand = strands[index];
        var company = new float[7];
        foreach (var i in Near(strand))
        {
            if (i != index)
                Note(strand, strands[i], (float)chances[i], company);
        }
        var off = 0f;
        for (var h = 0; h < Profile; h++)
            off += Math.Abs(ToneOf(strand, h) - tone[h]);
        var chance = Math.Clamp(chances[index], 1e-4, 1 - 1e-4);
        return [(float)Math.Log(chance / (1 - chance)), coverage, sureness, off / Profile, features.Loudness(index) - level, Math.Abs(features.Loudness(index) - level),
            Math.Abs(StrandFeatures.SideOf(strand) - side), .. company];
    }

    /// <summary>Partner that starts with it; octave below; octave above; twelfth or two octaves off; before; after; another through it.</summary>
    private static void Note(Strand strand, Strand other, float chance, float[] company)
    {
        var interval = other.MedianMidi - strand.MedianMidi;
        var shared = Math.Min(strand.End, other.End) - Math.Max(strand.First, other.First);
        var through = shared > 0.5 * Math.Min(strand.Length, other.Length);
        if (through && Math.Abs(Math.Abs(interval) - 12) < 0.4f)
            Raise(ref company[interval < 0 ? 1 : 2], chance);
        else if (through && (Math.Abs(Math.Abs(interval) - 19) < 0.4f || Math.Abs(Math.Abs(interval) - 24) < 0.4f))
            Raise(ref company[3], chance);
        else if (through && Math.Abs(strand.First - other.First) <= Reach && Math.Abs(interval) is > 1.5f and < 10)
            Raise(ref company[0], chance);
        else if (through)
            Raise(ref company[6], chance);
        if (Math.Abs(other.End - strand.First) <= Join && Math.Abs(interval) < 9)
            Raise(ref company[4], chance);
        if (Math.Abs(other.First - strand.End) <= Join && Math.Abs(interval) < 9)
            Raise(ref company[5], chance);
    }

    private static void Raise(ref float value, float to) => value = Math.Max(value, to);

    private IEnumerable<int> Near(Strand strand) =>
        likely.Where(i => strands[i].First <= strand.End + Join && strands[i].End >= strand.First - Join);

    /// <summary>Level of harmonic h + 2 against the first, in dB.</summary>
    private static float ToneOf(Strand strand, int h)
    {
        float first = 1e-5f, other = 1e-5f;
        foreach (var t in strand.Tones)
            (first, other) = (first + t.Level[0], other + t.Level[h + 1]);
        return Math.Clamp(20 * MathF.Log10(other / first), -40, 20);
    }
}
