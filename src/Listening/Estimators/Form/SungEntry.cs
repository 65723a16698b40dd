namespace Harkbook.Listening.Estimators.Form;

/// <summary>Where a singer comes in after bars that are played alone. A section starts there whatever the harmony does: an intro is sung by nobody.</summary>
/// <param name="Bar">The bar whose start lies nearest to the first note, since singing comes in with a pick-up as often as not.</param>
/// <param name="Confidence">That somebody sings at all (0–1).</param>
internal readonly record struct SungEntry(int Bar, double Confidence)
{
    /// <summary>
    /// A singer is heard as surely as this; so much of what is called sung is sung, and of what is called unsung no more than that: our judgement.
    /// </summary>
    public const double SureOfSinger = 0.75, Sung = 0.25, Unsung = 0.1;

    /// <summary>Bars that singing goes on for, and the fewest that an intro has: a vamp of two bars (common practice).</summary>
    private const int Going = 4, ShortestIntro = 2;

    /// <param name="starts">Where each bar starts, and where the last ends, in seconds.</param>
    /// <returns>Null where nobody surely sings, or there is singing from the start.</returns>
    public static SungEntry? Of(double[] starts, HeardLine? voice)
    {
        if (voice is null || voice.Kind.Confidence < SureOfSinger)
            return null;
        var shares = starts.Zip(starts.Skip(1), (start, end) => voice.ShareOf(start, end)).ToArray();
        var first = Enumerable.Range(0, shares.Length).FirstOrDefault(b => shares[b] >= Sung && shares.Skip(b).Take(Going).Average() >= Sung, -1);
        if (first < ShortestIntro)
            return null;
        var onset = voice.Notes.Select(n => n.Onset.Value).Where(t => t >= starts[first - 1]).Min();
        var bar = Math.Abs(starts[first - 1] - onset) < Math.Abs(starts[first] - onset) ? first - 1 : first;
        return bar >= ShortestIntro && shares.Take(bar).Average() <= Unsung ? new(bar, voice.Kind.Confidence) : null;
    }
}
