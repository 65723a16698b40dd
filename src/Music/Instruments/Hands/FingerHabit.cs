using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Hands;

/// <summary>
/// How readily players take a fingering: 0 at best. A hand at rest has a finger over each fret; where open strings sound among the first four frets
/// it stays where the index finger lies over the first. Separate fingers are preferred to a barre of any finger but the index; a barre keeps clear of
/// open strings on its high side, from where the finger comes. The weights were fitted to published fingerings (docs/decisions/0005-shapes-and-costs.md);
/// they choose among the fingerings of one shape and say nothing of which shape is easier.
/// </summary>
internal sealed class FingerHabit(Hand hand)
{
    private const double EachFinger = 0.35, LittleFinger = 0.3;
    private const double MillimetresOfStretch = 26, Crowding = 0.25;
    private const double FretAhead = 0.09, FretBack = 0.08, OffRest = 0.2;
    private const double IndexString = 0.1, OtherBarre = 0.2, OtherString = 0.95, LittleBarre = 0.4, AtNut = 1.35;
    private const double Muted = 0.4, OpenBeside = 1.5, Pinched = 0.8;
    private const int FirstPosition = 4;

    private int?[] frets = [];
    private int? restsAt;

    public void Begin(int?[] shape, PressedString[] pressed, Capo capo)
    {
        frets = shape;
        restsAt = shape.Contains(0) && pressed.Length > 0 && pressed[^1].FromNut <= capo.Fret + FirstPosition ? capo.Fret + 1 : null;
    }

    /// <summary>One more finger behind those that stand already.</summary>
    public double Of(ReadOnlySpan<FingerStop> standing, FingerStop stop) =>
        EachFinger + (stop.Finger == 4 ? LittleFinger : 0) + (stop.IsBarre ? OfBarre(stop) : 0) + (standing.Length == 0 ? 0 : Stretch(standing[^1], stop));

    /// <summary>All fingers stand: how far they are from rest.</summary>
    public double Unrest(ReadOnlySpan<FingerStop> stops)
    {
        if (stops.Length == 0)
            return 0;
        if (restsAt is { } home)
            return FretAhead * Ahead(stops, home) + FretBack * Back(stops, home);
        for (var over = stops[0].FromNut - 4 * hand.FretsAFinger; over <= stops[0].FromNut; over++)
        {
            if (Ahead(stops, over) + Back(stops, over) == 0)
                return 0;
        }
        return OffRest;
    }

    private double OfBarre(FingerStop barre)
    {
        var across = barre.HighString - barre.LowString + 1;
        var press = barre.Finger == 1 ? IndexString * (across - 1) : OtherBarre + OtherString * across + (barre.Finger == 4 ? LittleBarre : 0);
        return press * (barre.FromNut == 1 ? AtNut : 1)
            + Muted * frets.AsSpan(barre.LowString, across).Count((int?)null)
            + (frets.AsSpan(barre.HighString + 1).Contains(0) ? OpenBeside : 0)
            + (barre is { Finger: 1, Presses: 2 } && across > 2 ? Pinched : 0);
    }

    private double Stretch(FingerStop before, FingerStop stop) =>
        hand.WiderThanRest(before, stop) is > 0 and var frets
            ? hand.Distance(stop.FromNut - frets, stop.FromNut).Millimetres / MillimetresOfStretch
            : Crowding * hand.CloserThanRest(before, stop);

    /// <summary>Frets by which fingers reach ahead of where they would lie with the index finger over a fret.</summary>
    private int Ahead(ReadOnlySpan<FingerStop> stops, int indexOver)
    {
        var frets = 0;
        foreach (var stop in stops)
            frets += Math.Max(0, stop.FromNut - (indexOver + stop.Finger * hand.FretsAFinger - 1));
        return frets;
    }

    /// <summary>Frets by which fingers are held back from there.</summary>
    private int Back(ReadOnlySpan<FingerStop> stops, int indexOver)
    {
        var frets = 0;
        foreach (var stop in stops)
            frets += Math.Max(0, indexOver + (stop.Finger - 1) * hand.FretsAFinger - stop.FromNut);
        return frets;
    }
}
