using System.Numerics.Tensors;
using Harkbook.Music.Instruments.Hands;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// How likely a player who means a chord chooses just the strings and frets that sound some pitches, among all shapes on given open strings that
/// sound that chord over that bass: players take open strings, few fingers, low frets and full shapes. On the true tuning what is played is among
/// the best there is; on another the same pitches are often an odd choice (C. Baker, R. Saxe and J. Tenenbaum, "Action understanding as inverse
/// planning", Cognition 113, 2009). All shapes are summed by dynamic programming over strings and fingers.
/// </summary>
/// <param name="open">MIDI numbers of the strings as the capo stops them, low side first.</param>
/// <param name="hand">A usual one where nobody said.</param>
internal sealed class ShapeModel(int[] open, Hand? hand = null)
{
    private const int Fingers = 4, Row = Fingers + 1, UsualReach = 3, HighestNear = 4, HighestBarre = 9;
    private const double Never = 1e-9;

    private static readonly TuningModel.OfShape Model = TuningModel.Shipped.Shape;

    private readonly int reach = (hand ?? Hand.Usual).FretsWhereUsual(UsualReach);

    /// <summary>The natural log of the chance that the chord's shape sounds these pitches.</summary>
    /// <param name="classes">By pitch class: whether the chord has it.</param>
    public double LogChance(int[] pitches, bool[] classes, double[] strays)
    {
        var (played, all) = (Never, 0.0);
        for (var place = 1; place <= HighestBarre; place++)
        {
            for (var barre = place <= HighestNear ? 0 : 1; barre < 2; barre++)
            {
                var weight = Math.Pow(Model.PerPlace, place) * (barre == 1 ? Model.Barre : 1);
                played += weight * Played(pitches, strays, place, barre == 1);
                all += weight * All(classes, pitches[0] % 12, place, barre == 1);
            }
        }
        return Math.Log(played / (all + Never));
    }

    public static double[] Strays(int[] pitches) => HeldSet.StraysAmong(pitches, Model.Stray, Model.Overtone);

    /// <summary>By pitches explained and fingers used: the summed weight of all ways so far.</summary>
    private double Played(int[] pitches, double[] strays, int place, bool barre)
    {
        var size = (pitches.Length + 1) * Row;
        Span<double> now = stackalloc double[size], next = stackalloc double[size];
        now.Clear();
        now[barre ? 1 : 0] = 1;
        LeaveOut(now, strays);
        foreach (var pitch in open)
        {
            next.Clear();
            for (var i = 0; i < size; i++)
            {
                if (now[i] > 0)
                    AddString(next, i, now[i], pitches, pitch, place, barre);
            }
            LeaveOut(next, strays);
            next.CopyTo(now);
        }
        return TensorPrimitives.Sum<double>(now[^Row..]);
    }

    /// <summary>The string is silent, or sounds the next pitch.</summary>
    private void AddString(Span<double> sums, int from, double sum, int[] pitches, int open, int place, bool barre)
    {
        var (explained, used) = (from / Row, from % Row);
        sums[from] += sum * (explained == 0 ? Model.BelowBass : Model.Left);
        if (explained == pitches.Length)
            return;
        var (weight, fingers) = Of(pitches[explained] - open, place, barre);
        if (weight > 0 && used + fingers <= Fingers)
            sums[from + Row + fingers] += sum * weight;
    }

    /// <summary>Any pitch may be misheard, so that no string sounds it.</summary>
    private static void LeaveOut(Span<double> sums, double[] strays)
    {
        for (var i = 0; i + Row < sums.Length; i++)
            sums[i + Row] += sums[i] * strays[i / Row];
    }

    private double All(bool[] classes, int bass, int place, bool barre)
    {
        Span<double> silent = stackalloc double[Fingers + 1], sounding = stackalloc double[Fingers + 1], next = stackalloc double[Fingers + 1];
        silent.Clear();
        sounding.Clear();
        silent[barre ? 1 : 0] = 1;
        foreach (var pitch in open)
        {
            for (var used = 0; used <= Fingers; used++)
                next[used] = sounding[used] * Model.Left;
            for (var step = barre ? 0 : -1; step <= reach; step++)
                AddFret(next, sounding, silent, pitch, step < 0 ? 0 : place + step, classes, bass, Of(step < 0 ? 0 : place + step, place, barre));
            next.CopyTo(sounding);
            for (var used = 0; used <= Fingers; used++)
                silent[used] *= Model.BelowBass;
        }
        return TensorPrimitives.Sum<double>(sounding);
    }

    /// <summary>The first string that sounds has the bass.</summary>
    private static void AddFret(
        Span<double> next, Span<double> sounding, Span<double> silent, int open, int fret, bool[] classes, int bass, (double Weight, int Fingers) way)
    {
        var pitchClass = (open + fret) % 12;
        for (var used = 0; used + way.Fingers <= Fingers && classes[pitchClass]; used++)
            next[used + way.Fingers] += way.Weight * (sounding[used] + (pitchClass == bass ? silent[used] : 0));
    }

    private (double Weight, int Fingers) Of(int fret, int place, bool barre) =>
        fret == 0 && !barre ? (Model.Open, 0)
        : fret < place || fret > place + reach ? (0, 0)
        : barre && fret == place ? (1, 0)
        : (Model.Pressed * Math.Pow(Model.PerFret, fret - place), 1);
}
