namespace Harkbook.Music.Instruments;

/// <summary>
/// Tries every way to share a shape's pressed strings among four fingers and keeps the easiest. A finger takes one string or,
/// as a barre, neighbours on one fret; lower fingers take lower frets and, on one fret, strings nearer the low side.
/// </summary>
internal sealed class FingerSearch(Hand hand)
{
    public const double EachFinger = 0.25;
    private const double LittleFinger = 0.1;
    private const double MillimetresOfStretch = 18;
    private const double MillimetresOfSpan = 250;
    private const double Crowding = 0.08;

    private readonly int[] fingerOfStop = new int[4];
    private readonly int[] firstOfStop = new int[5];
    private readonly int[] bestFingers = new int[12];
    private int?[] frets = [];
    private PressedString[] pressed = [];
    private Effort best;
    private bool found;

    public ShapeFingering? Easiest(int?[] shape, PressedString[] strings)
    {
        (frets, pressed, found) = (shape, strings, false);
        Place(0, 0, new(SpanEffort(pressed, hand), 0, 0));
        return found ? Built() : null;
    }

    private void Place(int stops, int next, Effort soFar)
    {
        if (found && soFar.Total >= best.Total)
            return;
        if (next == pressed.Length)
        {
            Keep(stops, soFar);
            return;
        }
        var lowest = stops == 0 ? 1 : fingerOfStop[stops - 1] + 1;
        for (var finger = lowest; finger <= 4; finger++)
        {
            for (var end = next + 1; end <= pressed.Length && pressed[end - 1].FromNut == pressed[next].FromNut; end++)
            {
                if (BarreRules.Fault(frets, pressed, finger, next, end - 1) is not null)
                    break;
                (fingerOfStop[stops], firstOfStop[stops]) = (finger, next);
                if (Reaches(stops))
                    Place(stops + 1, end, Added(soFar, stops, end - 1));
            }
        }
    }

    private bool Reaches(int stop)
    {
        for (var i = 0; i < stop; i++)
        {
            if (hand.Distance(FretOf(i), FretOf(stop)) > hand.ReachBetween(fingerOfStop[i], fingerOfStop[stop]))
                return false;
        }
        return true;
    }

    private Effort Added(Effort soFar, int stop, int last)
    {
        var finger = fingerOfStop[stop];
        var reach = stop == 0 ? 0 : Stretch(stop);
        var barre = last == firstOfStop[stop] ? 0 : BarreRules.Effort(frets, finger, pressed[last].FromNut, pressed[firstOfStop[stop]].StringIndex, pressed[last].StringIndex);
        return new(soFar.Reach + reach, soFar.Barres + barre, soFar.Fingers + EachFinger + (finger == 4 ? LittleFinger : 0));
    }

    /// <summary>Nothing for a finger a fret; wider costs by the millimetre, closer a little by the fret.</summary>
    private double Stretch(int stop)
    {
        var frets = FretOf(stop) - FretOf(stop - 1);
        var fingers = fingerOfStop[stop] - fingerOfStop[stop - 1];
        var easy = FretOf(stop - 1) + fingers;
        return frets > fingers
            ? hand.Distance(easy, FretOf(stop)).Millimetres / MillimetresOfStretch
            : Crowding * (fingers - frets);
    }

    /// <summary>What the width of a shape costs, whichever fingers hold it.</summary>
    public static double SpanEffort(PressedString[] pressed, Hand hand) =>
        pressed.Length == 0 ? 0 : hand.Distance(pressed[0].FromNut, pressed[^1].FromNut).Millimetres / MillimetresOfSpan;

    private int FretOf(int stop) => pressed[firstOfStop[stop]].FromNut;

    private void Keep(int stops, Effort effort)
    {
        (best, found) = (effort, true);
        Array.Clear(bestFingers);
        for (var stop = 0; stop < stops; stop++)
        {
            var end = stop + 1 < stops ? firstOfStop[stop + 1] : pressed.Length;
            for (var i = firstOfStop[stop]; i < end; i++)
                bestFingers[pressed[i].StringIndex] = fingerOfStop[stop];
        }
    }

    private ShapeFingering Built()
    {
        var fingers = bestFingers.AsSpan(0, frets.Length).ToArray();
        return new([.. fingers], BarreRules.Barres(frets, fingers), best);
    }
}
