namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Cuts a strand into notes: where it grows louder at once, and where its pitch moves to another semitone and stays.</summary>
internal static class StrandCuts
{
    private const int Span = 4;
    private const float Rise = 5, Dip = 3.5f, BriefDip = 5;

    public static IEnumerable<Strand> Cut(Strand strand)
    {
        var cuts = new SortedSet<int> { 0, strand.Length };
        AddAttacks(strand, cuts);
        AddSteps(strand, cuts);
        return cuts.Zip(cuts.Skip(1)).Where(p => p.Second - p.First >= 3).Select(p => strand.Part(p.First, p.Second));
    }

    private static void AddAttacks(Strand strand, SortedSet<int> cuts)
    {
        var level = Enumerable.Range(0, strand.Length).Select(f => strand.Decibels(f)).ToArray();
        for (var f = Span; f < strand.Length - 2; f++)
        {
            var rise = level[f] - level[f - Span];
            if (rise < Rise || !IsSteepest(level, f) || cuts.GetViewBetween(f - 8, f).Count > 0)
                continue;
            var lowest = Enumerable.Range(f - Span, Span).MinBy(k => level[k]);
            cuts.Add(lowest);
        }
        var brief = Enumerable.Range(0, strand.Length).Select(strand.BriefDecibels).ToArray();
        AddDips(level, Dip, cuts);
        AddDips(brief, BriefDip, cuts);
    }

    /// <summary>A note that is begun again dips between.</summary>
    private static void AddDips(float[] level, float depth, SortedSet<int> cuts)
    {
        for (var f = 4; f < level.Length - 4; f++)
        {
            if (level[f] <= level[f - 1] && level[f] < level[f + 1]
                && Highest(level, f - 7, f) - level[f] > depth && Highest(level, f, f + 7) - level[f] > depth && cuts.GetViewBetween(f - 6, f + 6).Count == 0)
                cuts.Add(f);
        }
    }

    private static float Highest(float[] level, int from, int to) => level.AsSpan(Math.Max(0, from)..Math.Min(level.Length, to + 1)).ToArray().Max();

    private static bool IsSteepest(float[] level, int f)
    {
        var rise = level[f] - level[f - Span];
        for (var k = Math.Max(Span, f - Span); k < Math.Min(level.Length, f + Span + 1); k++)
        {
            if (level[k] - level[k - Span] > rise)
                return false;
        }
        return true;
    }

    /// <summary>A step lies where the medians of 90 ms before and after differ by 0.7 semitones or more, at its steepest.</summary>
    private static void AddSteps(Strand strand, SortedSet<int> cuts)
    {
        const int Side = 8;
        var (last, f) = (-Side, Side);
        for (; f < strand.Length - Side; f++)
        {
            var step = Step(strand, f, Side);
            if (step < 0.7f || f - last < Side || Step(strand, f - 1, Side) > step || Step(strand, f + 1, Side) >= step)
                continue;
            cuts.Add(f);
            last = f;
        }
    }

    private static float Step(Strand strand, int f, int side)
    {
        if (f < side || f + side > strand.Length)
            return 0;
        return Math.Abs(Median(strand, f - side, f) - Median(strand, f, f + side));
    }

    private static float Median(Strand strand, int from, int to)
    {
        Span<float> values = stackalloc float[to - from];
        for (var i = from; i < to; i++)
            values[i - from] = strand.Tones[i].Midi;
        values.Sort();
        return values[values.Length / 2];
    }
}
