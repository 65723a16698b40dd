namespace Harkbook.Music.Instruments;

/// <summary>What fingers that stand ask of the hand, for ranking shapes; the weights are our judgement.</summary>
internal static class FingeringEffort
{
    private const double EachFinger = 0.25;
    private const double LittleFinger = 0.1;
    private const double MillimetresOfStretch = 18;
    private const double MillimetresOfSpan = 250;
    private const double Crowding = 0.08;

    public static Effort Of(int?[] frets, ReadOnlySpan<FingerStop> stops, Hand hand)
    {
        if (stops.Length == 0)
            return default;
        var reach = hand.Distance(stops[0].FromNut, stops[^1].FromNut).Millimetres / MillimetresOfSpan;
        var (barres, fingers) = (0.0, 0.0);
        for (var i = 0; i < stops.Length; i++)
        {
            reach += i == 0 ? 0 : Stretch(stops[i - 1], stops[i], hand);
            barres += stops[i].IsBarre ? BarreRules.Effort(frets, stops[i]) : 0;
            fingers += EachFinger + (stops[i].Finger == 4 ? LittleFinger : 0);
        }
        return new(reach, barres, fingers);
    }

    /// <summary>Wider than the hand at rest costs by the millimetre, closer a little by the fret.</summary>
    private static double Stretch(FingerStop before, FingerStop stop, Hand hand) =>
        hand.WiderThanRest(before, stop) is > 0 and var frets
            ? hand.Distance(stop.FromNut - frets, stop.FromNut).Millimetres / MillimetresOfStretch
            : Crowding * hand.CloserThanRest(before, stop);
}
