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

    public static Hand Usual { get; } = new();

    /// <summary>A usual hand on the instrument that has a tuning; on a guitar where none is known to have it.</summary>
    public static Hand On(Tuning tuning) => FrettedInstrument.With(tuning)?.Hand ?? Usual;

    /// <summary>Nut to bridge; 650 mm (25.6 in) is common on guitars.</summary>
    public Length Scale { get; init; } = Length.FromMillimetres(650);

    /// <summary>Frets that each finger has to itself: 1, or 2 on necks that are fingered as a violin's is.</summary>
    public int FretsAFinger { get; init; } = 1;

    /// <summary>The furthest that index and little finger stretch; 60 to 150 mm.</summary>
    public Length LongestReach { get; init; } = Length.FromMillimetres(110);

    /// <summary>What two fingers (1 index … 4 little, the lower first) span at most.</summary>
    public Length ReachBetween(int lower, int higher) =>
        lower >= 1 && higher <= 4 && lower < higher
            ? LongestReach * ShareOfReach[lower - 1, higher - 1]
            : throw new ArgumentOutOfRangeException(nameof(higher), $"{lower} to {higher}", "Fingers run from 1 to 4, the lower first.");

    /// <summary>Frets by which two fingers, the lower first, spread wider than at rest; 0 where they don't.</summary>
    internal int WiderThanRest(FingerStop lower, FingerStop higher) =>
        Math.Max(0, higher.FromNut - lower.FromNut - Math.Max(0, higher.Finger - lower.Finger) * FretsAFinger);

    /// <summary>Frets by which two fingers, the lower first, are closer than at rest; 0 where they aren't.</summary>
    internal int CloserThanRest(FingerStop lower, FingerStop higher) =>
        Math.Max(0, (higher.Finger - lower.Finger - 1) * FretsAFinger + 1 - (higher.FromNut - lower.FromNut));

    /// <summary>From one fret to another, counted from the nut.</summary>
    public Length Distance(int fromFret, int toFret) => FretSpacing.Between(Scale, fromFret, toFret);
}
