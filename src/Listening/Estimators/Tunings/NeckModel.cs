namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>Where a player's notes come from on a neck with given open strings: open ones most, then low frets.</summary>
internal sealed class NeckModel
{
    private const int Frets = 17;
    private const int WidestSpan = 4;
    private const double Stray = 0.02;

    private readonly int[] open;
    private readonly double[] chances = new double[128];

    /// <param name="open">MIDI numbers of the strings as the capo stops them.</param>
    public NeckModel(int[] open)
    {
        this.open = open;
        foreach (var pitch in open)
        {
            for (var fret = 0; fret <= Frets; fret++)
                chances[Math.Min(127, pitch + fret)] += Liking(fret);
        }
        var total = chances.Sum();
        for (var midi = 0; midi < chances.Length; midi++)
            chances[midi] = (1 - Stray) * chances[midi] / total + Stray / 60;
    }

    public bool IsOpen(int midi) => open.Contains(midi);

    /// <summary>The natural log of the chance that a note is this pitch.</summary>
    public double LogChance(int midi) => Math.Log(chances[Math.Clamp(midi, 0, 127)]);

    /// <summary>
    /// The least effort to sound pitches together, one a string with at most <see cref="WidestSpan"/> frets of span:
    /// the number of different frets pressed and a part of the span. Null when it can't be done.
    /// </summary>
    public double? Effort(ReadOnlySpan<int> pitches)
    {
        var frets = new int[pitches.Length];
        var least = double.PositiveInfinity;
        Place(pitches, 0, 0, frets, ref least);
        return double.IsPositiveInfinity(least) ? null : least;
    }

    private void Place(ReadOnlySpan<int> pitches, int next, int usedStrings, int[] frets, ref double least)
    {
        if (next == pitches.Length)
        {
            least = Math.Min(least, EffortOf(frets));
            return;
        }
        for (var s = 0; s < open.Length; s++)
        {
            var fret = pitches[next] - open[s];
            if ((usedStrings >> s & 1) != 0 || fret is < 0 or > Frets)
                continue;
            frets[next] = fret;
            if (Span(frets.AsSpan(0, next + 1)) <= WidestSpan)
                Place(pitches, next + 1, usedStrings | 1 << s, frets, ref least);
        }
    }

    private static int Span(ReadOnlySpan<int> frets)
    {
        var (lowest, highest) = (int.MaxValue, 0);
        foreach (var fret in frets)
        {
            if (fret > 0)
                (lowest, highest) = (Math.Min(lowest, fret), Math.Max(highest, fret));
        }
        return highest == 0 ? 0 : highest - lowest;
    }

    private static double EffortOf(int[] frets) =>
        frets.Where(f => f > 0).Distinct().Count() + 0.3 * Span(frets) + 0.1 * frets.Max();

    private static double Liking(int fret) => fret switch
    {
        0 => 2.5,
        <= 4 => 1,
        <= 7 => 0.5,
        <= 12 => 0.2,
        _ => 0.05,
    };
}
