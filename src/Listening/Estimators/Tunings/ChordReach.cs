namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>What the easiest way to hold pitches that sound together asks of the hand, on given open strings.</summary>
internal sealed class ChordReach(int[] open)
{
    private const int Frets = 14, Span = 4;
    private const double Finger = 1, Barre = 1.4, PerSpan = 0.25, PerFret = 0.1, Gap = 0.5, LeftOut = 2.5, OvertoneLeftOut = 0.9, FifthFinger = 4;

    private readonly int[] fretOfString = new int[open.Length];
    private int[] pitches = [];
    private double least;
    private int leftOut;
    private int openStrings;

    /// <param name="pitches">Rising, three to six.</param>
    /// <returns>The effort, the pitches that found no string, and the strings that ring open.</returns>
    public (double Effort, int LeftOut, int OpenStrings) Of(int[] pitches)
    {
        (this.pitches, least) = (pitches, double.PositiveInfinity);
        Array.Fill(fretOfString, -1);
        Place(0, int.MaxValue, 0, 0, 0);
        return (least, leftOut, openStrings);
    }

    private void Place(int note, int lowest, int highest, double cost, int missing)
    {
        if (cost >= least)
            return;
        if (note == pitches.Length)
        {
            Keep(lowest, highest, cost, missing);
            return;
        }
        for (var s = 0; s < open.Length; s++)
        {
            var fret = pitches[note] - open[s];
            if (fretOfString[s] >= 0 || fret is < 0 or > Frets)
                continue;
            var (low, high) = fret == 0 ? (lowest, highest) : (Math.Min(lowest, fret), Math.Max(highest, fret));
            if (high - low > Span && high > 0)
                continue;
            fretOfString[s] = fret;
            Place(note + 1, low, high, cost, missing);
            fretOfString[s] = -1;
        }
        Place(note + 1, lowest, highest, cost + (IsOvertone(note) ? OvertoneLeftOut : LeftOut), missing + 1);
    }

    private bool IsOvertone(int note)
    {
        for (var i = 0; i < note; i++)
        {
            if (pitches[note] - pitches[i] is 12 or 19 or 24)
                return true;
        }
        return false;
    }

    private void Keep(int lowest, int highest, double cost, int missing)
    {
        var (atLowest, others, opens, gaps, last, openAbove) = (0, 0, 0, 0, -1, false);
        for (var s = 0; s < open.Length; s++)
        {
            var fret = fretOfString[s];
            if (fret < 0)
                continue;
            gaps += last < 0 ? 0 : s - last - 1;
            last = s;
            opens += fret == 0 ? 1 : 0;
            openAbove |= fret == 0 && atLowest > 0;
            _ = fret == 0 ? 0 : fret == lowest ? atLowest++ : others++;
        }
        var first = atLowest < 2 || (openAbove && atLowest + others <= 4) ? Finger * atLowest : Math.Min(Finger * atLowest, Barre);
        var fingers = (openAbove ? atLowest : Math.Min(1, atLowest)) + others;
        cost += first + Finger * others + Gap * gaps + FifthFinger * Math.Max(0, fingers - 4)
            + (highest == 0 ? 0 : PerSpan * (highest - lowest) + PerFret * (lowest - 1));
        if (cost < least)
            (least, leftOut, openStrings) = (cost, missing, opens);
    }
}
