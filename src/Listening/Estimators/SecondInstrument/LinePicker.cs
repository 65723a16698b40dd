namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Chooses the strands that make the line: those that are likelier the second instrument's than not, without the echoes that a
/// strong one leaves an octave or a twelfth away; where one voice sings, one at a time.
/// </summary>
internal static class LinePicker
{
    public const double LeastChance = 0.5;
    private const double SureChance = 0.75;
    private const float EchoDecibels = 3, MuchWeaker = 9;

    private static readonly float[] EchoIntervals = [12, 19, 24, 28];

    public static List<WeighedStrand> Pick(IEnumerable<WeighedStrand> strands, bool oneAtATime)
    {
        var likely = strands.Where(s => s.Chance > LeastChance).OrderBy(s => s.Strand.First).ToList();
        var kept = likely.Where(s => !likely.Any(o => IsEchoOf(s, o))).ToList();
        return oneAtATime ? Alone(kept) : kept;
    }

    /// <summary>
    /// A strand that sounds through another's time an octave, a twelfth or two octaves off. Above, it is the other's harmonics, however strong
    /// they are, unless the lower is much weaker; below, it is an echo if it is weaker and less likely.
    /// </summary>
    private static bool IsEchoOf(WeighedStrand echo, WeighedStrand of)
    {
        if (ReferenceEquals(echo, of) || echo.Overlap(of) < 0.6 * echo.Strand.Length)
            return false;
        var interval = echo.Strand.MedianMidi - of.Strand.MedianMidi;
        if (!EchoIntervals.Any(i => Math.Abs(Math.Abs(interval) - i) < 0.35f))
            return false;
        return interval > 0
            ? of.Chance > SureChance || echo.Decibels < of.Decibels + MuchWeaker
            : echo.Decibels < of.Decibels - EchoDecibels && echo.Chance < Math.Min(SureChance, of.Chance);
    }

    /// <summary>Of strands that overlap by more than half of the shorter, the likelier (longer, louder) stays.</summary>
    private static List<WeighedStrand> Alone(List<WeighedStrand> strands)
    {
        var kept = new List<WeighedStrand>();
        foreach (var strand in strands.OrderByDescending(s => s.Chance * s.Strand.Length * Math.Pow(10, s.Decibels / 40)))
        {
            if (!kept.Any(k => k.Overlap(strand) > 0.4 * Math.Min(k.Strand.Length, strand.Strand.Length)))
                kept.Add(strand);
        }
        return [.. kept.OrderBy(s => s.Strand.First)];
    }
}
