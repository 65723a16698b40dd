using Harkbook.Listening.Estimators.Tunings;

namespace Harkbook.Training.Fretting;

/// <summary>
/// Pieces that no ear can tell: a tuning and capo of the catalogue with other open strings sounds exactly the pitches of every chord, each with no more
/// fingers and no wider reach than the true one asks, and all in all with no fewer open strings. What listening can reach on a set is bounded by their number.
/// </summary>
internal static class Twins
{
    private const int Reach = 3, HighestFret = 12;

    public static void Run(int count, Func<int, MadePiece> make)
    {
        var guitars = TuningEstimator.Guitars(new()).Select(g => (Name: g.ToString(), Open: TuningEstimator.Open(g).ToArray())).DistinctBy(g => string.Join(' ', g.Open)).ToArray();
        var with = 0;
        for (var i = 0; i < count; i++)
        {
            var piece = make(i);
            var open = piece.Tuning.Strings.Select(s => s.Midi + piece.Capo.Fret).ToArray();
            int[][] chords = [.. piece.Chords.Where(c => !c.OnlyMeant).Select(c => Pitches(c.Shape.Frets.ToArray(), open)).DistinctBy(p => string.Join(' ', p))];
            var lowest = piece.Notes.Min(n => n.Midi);
            var ways = chords.Select(c => Ways(c, open)).ToArray();
            var twins = chords.Length < 2 ? [] : guitars.Where(g => !g.Open.SequenceEqual(open) && lowest >= g.Open.Min() && IsTwin(chords, ways, g.Open)).Select(g => g.Name).ToArray();
            with += twins.Length > 0 ? 1 : 0;
            Console.WriteLine($"{i} {piece.Name} {piece.Capo}: {chords.Length} chords; {string.Join("; ", twins)}");
        }
        Console.WriteLine($"{with} of {count} have a twin");
    }

    private static int[] Pitches(int?[] frets, int[] open) => [.. frets.Select((f, s) => f + open[s]).Where(p => p is not null).Select(p => p!.Value).Distinct().Order()];

    private static bool IsTwin(int[][] chords, (int Fingers, int Reach, int Open)[][] truth, int[] open)
    {
        var opens = 0;
        for (var c = 0; c < chords.Length; c++)
        {
            var best = truth[c].MinBy(w => (w.Fingers, w.Reach));
            var ways = Ways(chords[c], open).Where(w => w.Fingers <= best.Fingers && w.Reach <= best.Reach).ToArray();
            if (ways.Length == 0)
                return false;
            opens += ways.Max(w => w.Open) - best.Open;
        }
        return opens >= 0;
    }

    /// <summary>All ways to sound just these pitches on rising strings: fingers (one may lie across), frets from first to last, open strings.</summary>
    private static (int Fingers, int Reach, int Open)[] Ways(int[] pitches, int[] open)
    {
        var found = new List<(int, int, int)>();
        Place(0, 0, []);
        return [.. found];

        void Place(int s, int note, List<int> frets)
        {
            if (note == pitches.Length)
            {
                var pressed = frets.Where(f => f > 0).ToArray();
                var reach = pressed.Length == 0 ? 0 : pressed.Max() - pressed.Min();
                if (reach <= Reach)
                    found.Add((Fingers(frets, pressed), reach, frets.Count(f => f == 0)));
                return;
            }
            if (s == open.Length)
                return;
            if (pitches[note] - open[s] is >= 0 and <= HighestFret and var fret)
                Place(s + 1, note + 1, [.. frets, fret]);
            Place(s + 1, note, frets);
        }
    }

    private static int Fingers(List<int> frets, int[] pressed)
    {
        if (pressed.Length == 0)
            return 0;
        var lowest = pressed.Min();
        var isBarre = frets.IndexOf(0, frets.IndexOf(lowest)) < 0;
        return isBarre ? 1 + pressed.Count(f => f > lowest) : pressed.Length;
    }
}
