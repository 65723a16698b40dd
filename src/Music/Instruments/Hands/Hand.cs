using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Music.Instruments.Hands;

/// <summary>
/// How far a fretting hand reaches. Reach is measured along the string in millimetres, so the same hand spans more frets
/// up the neck. The limits are our judgement from how often shapes need them (in a public database of 2,069 shapes none
/// spans more than from fret 1 to fret 4, 98 mm); a smaller hand, or one that hurts, should be given less.
/// </summary>
public sealed record Hand
{
    private static readonly double[,] ShareOfReach =
    {
        // to finger 1, 2, 3, 4; neighbours: 3–4 and 1–2 spread most easily, 2–3 least (classical-guitar teaching).
        { 0, 0.66, 0.89, 1.00 },
        { 0, 0, 0.62, 0.90 },
        { 0, 0, 0, 0.68 },
        { 0, 0, 0, 0 },
    };

    public static Length Smallest { get; } = Length.FromMillimetres(60);

    public static Length Largest { get; } = Length.FromMillimetres(150);

    public static Hand Usual { get; } = new();

    /// <summary>A hand on the instrument that has a tuning; on a guitar where none is known to have it.</summary>
    /// <param name="reach">The player's own <see cref="LongestReach"/>; a usual hand's where nobody said.</param>
    public static Hand On(Tuning tuning, Length? reach = null)
    {
        var usual = FrettedInstrument.With(tuning)?.Hand ?? Usual;
        return reach is { } own ? usual with { LongestReach = own } : usual;
    }

    /// <summary>Nut to bridge; 650 mm (25.6 in) is common on guitars.</summary>
    public Length Scale { get; init; } = Length.FromMillimetres(650);

    /// <summary>Frets that each finger has to itself: 1, or 2 on necks that are fingered as a violin's is.</summary>
    public int FretsAFinger { get; init; } = 1;

    /// <summary>The furthest that index and little finger stretch; <see cref="Smallest"/> to <see cref="Largest"/>.</summary>
    public Length LongestReach { get; init; } = Length.FromMillimetres(110);

    /// <summary>What two fingers (1 index … 4 little, the lower first) span at most.</summary>
    public Length ReachBetween(int lower, int higher) =>
        lower >= 1 && higher <= 4 && lower < higher
            ? LongestReach * ShareOfReach[lower - 1, higher - 1]
            : throw new ArgumentOutOfRangeException(nameof(higher), $"{lower} to {higher}", "Fingers run from 1 to 4, the lower first.");

    /// <summary>
    /// The whole frets that this hand spans where a usual one on the same neck spans some. From fret p to p + n is a share of 2^(−p/12) · (1 − 2^(−n/12))
    /// of the string, so that the answer is the same anywhere on the neck.
    /// </summary>
    public int FretsWhereUsual(int usual)
    {
        var spanned = (1 - Math.Pow(2, -usual / 12.0)) * (LongestReach / Usual.LongestReach);
        return (int)Math.Floor(-12 * Math.Log2(1 - spanned) + 1e-9);
    }

    /// <summary>Frets by which two fingers, the lower first, spread wider than at rest; 0 where they don't.</summary>
    internal int WiderThanRest(FingerStop lower, FingerStop higher) =>
        Math.Max(0, higher.FromNut - lower.FromNut - Math.Max(0, higher.Finger - lower.Finger) * FretsAFinger);

    /// <summary>Frets by which two fingers, the lower first, are closer than at rest; 0 where they aren't.</summary>
    internal int CloserThanRest(FingerStop lower, FingerStop higher) =>
        Math.Max(0, (higher.Finger - lower.Finger - 1) * FretsAFinger + 1 - (higher.FromNut - lower.FromNut));

    /// <summary>From one fret to another, counted from the nut.</summary>
    public Length Distance(int fromFret, int toFret) => FretSpacing.Between(Scale, fromFret, toFret);
}
