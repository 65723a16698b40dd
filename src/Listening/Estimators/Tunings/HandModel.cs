using Harkbook.Music.Instruments.Hands;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// How likely a hand sounds a set of pitches on given open strings: a hand is at some fret, each string is open, pressed within reach or silent,
/// and each pitch belongs to one string or is misheard. All ways are summed by dynamic programming over strings and rising pitches;
/// two neighbouring strings may cross.
/// </summary>
/// <param name="open">MIDI numbers of the strings as the capo stops them, low side first.</param>
/// <param name="openLiking">The chance that a string is open with the hand near the nut; less further up.</param>
/// <param name="hand">A usual one where nobody said.</param>
/// <param name="suits">By MIDI number and string: how well what is known of that pitch's notes suits, 0 to 1; null where nothing is.</param>
internal sealed class HandModel(int[] open, double openLiking, Hand? hand = null, double[,]? suits = null)
{
    private const double Never = 1e-12;

    private static readonly TuningModel.OfHand Model = TuningModel.Shipped.Hand;

    private static readonly double[] Places = [.. Model.Places];

    private readonly double[][] chances = ChancesOf(openLiking, ReachOf(hand ?? Hand.Usual));

    /// <summary>The natural log of the chance of these pitches.</summary>
    /// <param name="pitches">Rising, each once.</param>
    public double LogChance(int[] pitches)
    {
        var (total, stray) = (Never, HeldSet.StraysAmong(pitches, Model.Stray, Model.Overtone));
        for (var place = 0; place < Places.Length; place++)
            total += Places[place] * Sum(pitches, stray, chances[place]);
        return Math.Log(total);
    }

    /// <summary>The natural log of the chance that whatever this hand sounds keeps to these pitch classes.</summary>
    public double LogChanceOfClasses(bool[] classes)
    {
        var total = Never;
        for (var place = 0; place < Places.Length; place++)
        {
            var all = Places[place];
            foreach (var pitch in open)
            {
                var any = Model.Silent;
                for (var fret = 0; fret < 18; fret++)
                    any += classes[(pitch + fret) % 12] ? chances[place][fret] : 0;
                all *= any;
            }
            total += all;
        }
        return Math.Log(total);
    }

    /// <summary>The natural log of the chance that a note that ends just as another starts, and that other, are one string's.</summary>
    public double LogChanceOfCut(int first, int second)
    {
        var total = Model.NoCut;
        for (var place = 1; place < Places.Length; place++)
        {
            foreach (var pitch in open)
                total += Places[place] * Of(chances[place], first - pitch) * Of(chances[place], second - pitch);
        }
        return Math.Log(total);
    }

    private double Sum(int[] pitches, double[] stray, double[] chance)
    {
        var count = pitches.Length;
        Span<double> before = stackalloc double[count + 1], now = stackalloc double[count + 1], next = stackalloc double[count + 1];
        before.Clear();
        Spill(now, stray, first: 1);
        for (var s = 0; s < open.Length; s++)
        {
            for (var i = 0; i <= count; i++)
            {
                next[i] = now[i] * Model.Silent + (i > 0 ? now[i - 1] * Of(chance, pitches[i - 1], s) : 0);
                if (s > 0 && i > 1)
                    next[i] += before[i - 2] * Model.Crossing * Of(chance, pitches[i - 1], s - 1) * Of(chance, pitches[i - 2], s);
            }
            for (var i = 0; i < count; i++)
                next[i + 1] += next[i] * stray[i];
            now.CopyTo(before);
            next.CopyTo(now);
        }
        return now[count];
    }

    /// <summary>Pitches below the first string's may all be misheard.</summary>
    private static void Spill(Span<double> sums, double[] stray, double first)
    {
        sums[0] = first;
        for (var i = 0; i < stray.Length; i++)
            sums[i + 1] = sums[i] * stray[i];
    }

    private double Of(double[] chance, int pitch, int s) => Of(chance, pitch - open[s]) * (suits?[pitch, s] ?? 1);

    private static double Of(double[] chance, int fret) => fret >= 0 && fret < chance.Length ? chance[fret] : 0;

    /// <summary>The same for another hand: it leaves out the frets that it can't reach, and reaches further as seldom as a usual one its last.</summary>
    private static double[] ReachOf(Hand hand)
    {
        var last = Model.Reach.Length - 1;
        var frets = Enumerable.Range(0, hand.FretsWhereUsual(last) + 1).Select(f => Model.Reach[Math.Min(f, last)]).ToArray();
        return frets.Length == Model.Reach.Length ? frets : [.. frets.Select(f => f / frets.Sum())];
    }

    private static double[][] ChancesOf(double openLiking, double[] reach) =>
        [.. Places.Select((_, place) => Enumerable.Range(0, 24).Select(fret => Chance(place, fret, openLiking, reach)).ToArray())];

    private static double Chance(int place, int fret, double openLiking, double[] reach)
    {
        var opens = place == 0 ? 1 - Model.Silent : openLiking * (place <= 3 ? 1 : place <= 7 ? 0.6 : 0.3);
        return fret == 0 ? opens : place > 0 && fret >= place && fret - place < reach.Length ? (1 - Model.Silent - opens) * reach[fret - place] : 0;
    }
}
