using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Hands;

/// <summary>
/// Tries every way to share a shape's pressed strings among four fingers and keeps the one that players take most readily. A finger takes one string or,
/// as a barre, neighbours on one fret; lower fingers take lower frets and, on one fret, strings nearer the low side,
/// unless the hand slants.
/// </summary>
internal sealed class FingerSearch(Hand hand, Capo capo)
{
    private readonly FingerHabit habit = new(hand);
    private readonly FingerStop[] stops = new FingerStop[4];
    private int?[] frets = [];
    private PressedString[] pressed = [];
    private FingerStop[]? best;
    private double least;
    private Effort easiest;

    public ShapeFingering? Find(int?[] shape, PressedString[] strings)
    {
        (frets, best, least) = (shape, null, double.PositiveInfinity);
        habit.Begin(shape, strings, capo);
        foreach (var order in PressedString.Slanted(strings) is { } slanted ? new[] { slanted, strings } : [strings])
        {
            pressed = order;
            Place(0, 0, 0, FingeringEffort.Start(strings, hand));
        }
        return best is null ? null : Built(best);
    }

    private void Place(int count, int next, double soFar, Effort effort)
    {
        if (best is not null && soFar >= least && effort.Total >= easiest.Total)
            return;
        if (next == pressed.Length)
        {
            Keep(count, soFar, effort);
            return;
        }
        var lowest = count == 0 ? 1 : stops[count - 1].Finger + 1;
        for (var finger = lowest; finger <= 4; finger++)
        {
            for (var end = next + 1; end <= pressed.Length && pressed[end - 1].FromNut == pressed[next].FromNut; end++)
            {
                if (BarreRules.Fault(frets, pressed, finger, next, end - 1) is not null)
                    break;
                var (low, high) = BarreRules.Ends(pressed, next, end - 1);
                stops[count] = new(finger, pressed[next].FromNut, low, high, end - next);
                var standing = stops.AsSpan(0, count);
                if (Reaches(count))
                    Place(count + 1, end, soFar + habit.Of(standing, stops[count]), FingeringEffort.With(effort, frets, standing, stops[count], hand));
            }
        }
    }

    private bool Reaches(int stop)
    {
        for (var i = 0; i < stop; i++)
        {
            if (hand.Distance(stops[i].FromNut, stops[stop].FromNut) > hand.ReachBetween(stops[i].Finger, stops[stop].Finger))
                return false;
        }
        return true;
    }

    private void Keep(int count, double soFar, Effort effort)
    {
        if (best is null || effort.Total < easiest.Total)
            easiest = effort;
        var whole = soFar + habit.Unrest(stops.AsSpan(0, count));
        if (whole < least)
            (least, best) = (whole, stops[..count]);
    }

    private ShapeFingering Built(FingerStop[] found)
    {
        var fingers = new int[frets.Length];
        foreach (var p in pressed)
            fingers[p.StringIndex] = found.First(s => s.FromNut == p.FromNut && p.StringIndex >= s.LowString && p.StringIndex <= s.HighString).Finger;
        return new([.. fingers], BarreRules.Barres(frets, fingers), easiest);
    }
}
