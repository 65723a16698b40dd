using Harkbook.Music.Instruments.Shapes;

namespace Harkbook.Music.Instruments.Hands;

/// <summary>What fingers that stand ask of the hand, for ranking shapes; the weights are our judgement.</summary>
internal static class FingeringEffort
{
    private const double EachFinger = 0.25;
    private const double LittleFinger = 0.1;
    private const double MillimetresOfStretch = 18;
    private const double MillimetresOfSpan = 250;
    private const double Crowding = 0.08;

    public static Effort Of(int?[] frets, PressedString[] pressed, ReadOnlySpan<FingerStop> stops, Hand hand)
    {
        var effort = Start(pressed, hand);
        for (var i = 0; i < stops.Length; i++)
            effort = With(effort, frets, stops[..i], stops[i], hand);
        return effort;
    }

    /// <summary>The width of a shape, whichever fingers hold it.</summary>
    public static Effort Start(PressedString[] pressed, Hand hand) =>
        pressed.Length == 0 ? default : new(hand.Distance(pressed[0].FromNut, pressed[^1].FromNut).Millimetres / MillimetresOfSpan, 0, 0);

    /// <summary>One more finger behind those that stand already.</summary>
    public static Effort With(Effort soFar, int?[] frets, ReadOnlySpan<FingerStop> standing, FingerStop stop, Hand hand) => new(
        soFar.Reach + (standing.Length == 0 ? 0 : Stretch(standing[^1], stop, hand)),
        soFar.Barres + (stop.IsBarre ? BarreRules.Effort(frets, stop) : 0),
        soFar.Fingers + EachFinger + (stop.Finger == 4 ? LittleFinger : 0));

    /// <summary>Wider than the hand at rest costs by the millimetre, closer a little by the fret.</summary>
    private static double Stretch(FingerStop before, FingerStop stop, Hand hand) =>
        hand.WiderThanRest(before, stop) is > 0 and var frets
            ? hand.Distance(stop.FromNut - frets, stop.FromNut).Millimetres / MillimetresOfStretch
            : Crowding * hand.CloserThanRest(before, stop);
}
