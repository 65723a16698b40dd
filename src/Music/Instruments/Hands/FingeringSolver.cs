using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Hands;

/// <summary>
/// Gives a shape its fingers, or says why no hand plays it. The thumb never frets. Rules are common practice: four fingers,
/// a lower finger never on a higher fret than a higher one, barres as in <see cref="Barre"/>; the reach is the hand's.
/// </summary>
public static class FingeringSolver
{
    /// <summary>The easiest fingering of a shape's frets; fingers that it already has are not looked at.</summary>
    public static FingeringAnswer Solve(Shape shape, Capo capo = default, Hand? hand = null)
    {
        hand ??= Hand.Usual;
        var pressed = PressedString.Of(shape.Frets.AsSpan(), capo);
        var frets = shape.Frets.ToArray();
        if (BehindCapo(pressed, frets, capo) is { } fault)
            return new(null, [fault]);
        return new FingerSearch(hand, capo).Find(frets, pressed) is { } fingering
            ? new(fingering, [])
            : new(null, [WhyNot(shape, pressed, capo, hand)]);
    }

    /// <summary>
    /// What the fingers that a shape gives amount to: barres and every rule that they break. A shape without fingers is solved.
    /// </summary>
    public static FingeringAnswer Check(Shape shape, Capo capo = default, Hand? hand = null) =>
        shape.Fingers.IsEmpty ? Solve(shape, capo, hand) : GivenFingers.Check(shape, capo, hand ?? Hand.Usual);

    /// <summary>Fingers that contradict their shape whatever the hand: on two frets, on a string that isn't pressed, or missing.</summary>
    public static ImmutableArray<FingerFault> Contradictions(Shape shape, Capo capo = default) =>
        shape.Fingers.IsEmpty ? [] : [.. GivenFingers.Contradictions(shape, capo)];

    internal static string? BehindCapo(PressedString[] pressed, int?[] frets, Capo capo)
    {
        foreach (var p in pressed)
        {
            if (capo.IsPartial && p.FromNut <= capo.Fret)
                return $"string {frets.Length - p.StringIndex} is pressed at fret {p.FromNut}, behind the capo";
        }
        return null;
    }

    private static string WhyNot(Shape shape, PressedString[] pressed, Capo capo, Hand hand)
    {
        var anyReach = hand with { LongestReach = hand.Scale * 10 };
        var reach = hand.Distance(pressed[0].FromNut, pressed[^1].FromNut);
        if (reach > hand.LongestReach)
            return $"fret {shape.FirstFret} to fret {shape.LastFret} is a reach of {reach.Millimetres:0} mm; this hand spans "
                + $"{hand.LongestReach.Millimetres:0} mm";
        return new FingerSearch(anyReach, capo).Find([.. shape.Frets], pressed) is null
            ? "it needs more than four fingers, and no barre helps"
            : "the fingers that could hold it would have to spread further than neighbouring fingers do";
    }
}
