using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Fretting;

/// <summary>
/// Shapes by rules of thumb, on purpose not by the search that Harkbook itself uses: the bass is the root, as many strings ring open as the player
/// likes, fingers stay within four frets; else one finger lies across all strings. In standard tuning and its kin the shapes that beginners learn.
/// </summary>
internal sealed class ThumbShapes(int[] open, double openLiking, double fullness, bool barres, bool drones, Random random)
{
    private static readonly int[] StandardSteps = [5, 5, 5, 4, 5];

    /// <summary>Common practice, by the note on the second string's open A and the chord's kind.</summary>
    private static readonly Dictionary<string, string[]> Learnt = new()
    {
        ["0"] = ["x32010", "332010"], ["2"] = ["xx0232"], ["4"] = ["022100"], ["7"] = ["320003", "320033"], ["9"] = ["x02220"], ["5"] = ["133211", "xx3211"],
        ["11"] = ["x24442"], ["10"] = ["x13331"], ["3"] = ["x68886"], ["8"] = ["466544"], ["9m"] = ["x02210"], ["4m"] = ["022000"], ["2m"] = ["xx0231"],
        ["11m"] = ["x24432"], ["6m"] = ["244222"], ["7m"] = ["355333"], ["0m"] = ["x35543"], ["5m"] = ["133111"], ["1m"] = ["x46654"], ["4.7"] = ["020100"],
        ["9.7"] = ["x02020"], ["2.7"] = ["xx0212"], ["7.7"] = ["320001"], ["0.7"] = ["x32310"], ["11.7"] = ["x21202"], ["0add9"] = ["x32033"],
        ["2sus4"] = ["xx0233"], ["9sus2"] = ["x02200"], ["0maj7"] = ["x32000"], ["5maj7"] = ["xx3210"], ["9m7"] = ["x02010"], ["4m7"] = ["022030"],
        ["2m7"] = ["xx0211"], ["7maj7"] = ["320002"], ["2maj7"] = ["xx0222"],
    };

    private readonly double[] quirks = [.. Enumerable.Range(0, 64).Select(_ => 0.5 * random.NextDouble())];
    private int?[]? best;
    private double most;

    /// <summary>Null where the rules find none.</summary>
    public Shape? Of(Chord chord, string kind) => (Standard(chord, kind) ?? Ruled(chord)) is { } frets ? Shape.Of([.. frets]) : null;

    /// <summary>How well the chord lies: what the best shape scores.</summary>
    public double Ease(Chord chord) => Ruled(chord) is null ? double.NegativeInfinity : most;

    private int?[]? Standard(Chord chord, string kind)
    {
        if (!Enumerable.Range(0, 5).All(s => open[s + 1] - open[s] == StandardSteps[s]) || chord.Bass.PitchClass != chord.Root.PitchClass)
            return null;
        var root = (chord.Root.PitchClass - (open[0] - 4) % 12 + 24) % 12;
        return Learnt.TryGetValue($"{root}{(kind is "7" ? ".7" : kind)}", out var ways)
            ? [.. Shape.Parse(ways[(int)(quirks[root] * 1.99 * ways.Length) % ways.Length]).Frets] : null;
    }

    private int?[]? Ruled(Chord chord)
    {
        (best, most) = (null, double.NegativeInfinity);
        for (var position = barres ? -1 : 0; position <= 8; position++)
            Try(chord, new int?[6], 0, position);
        return best;
    }

    /// <param name="position">0: near the nut with open strings; higher: a finger lies across the strings there; −1: open strings too, anywhere to the fifth fret.</param>
    private void Try(Chord chord, int?[] frets, int s, int position)
    {
        if (s == 6)
        {
            Weigh(chord, frets, position);
            return;
        }
        var (low, high) = position <= 0 ? (0, position < 0 ? 5 : 4) : (position, position + 3);
        for (var fret = low; fret <= high; fret++)
        {
            if (!chord.PitchClasses.Contains((open[s] + fret) % 12) && !(drones && fret == 0 && s >= 4 && chord.Root.PitchClass != (open[s] + 1) % 12))
                continue;
            frets[s] = fret;
            Try(chord, frets, s + 1, position);
        }
        frets[s] = null;
        if (s < 3 && frets[..s].All(f => f is null) || s == 5)
            Try(chord, frets, s + 1, position);
    }

    private void Weigh(Chord chord, int?[] frets, int position)
    {
        var sounding = Enumerable.Range(0, 6).Where(s => frets[s] is not null).ToArray();
        var pitches = sounding.Select(s => open[s] + frets[s]!.Value).ToArray();
        if (sounding.Length < 4 || pitches[0] % 12 != chord.Bass.PitchClass || pitches.Min() != pitches[0])
            return;
        var missing = chord.PitchClasses.Count(pc => pitches.All(p => p % 12 != pc));
        if (missing > (chord.PitchClasses.Length > 3 ? 1 : 0))
            return;
        var pressed = frets.Where(f => f > position && f > 0).Select(f => f!.Value).ToArray();
        var fingers = position > 0 ? pressed.Length + 1 : pressed.Length;
        if (fingers > 4 || pressed.Length > 0 && pressed.Max() - pressed.Min() > 3)
            return;
        var score = openLiking * frets.Count(f => f == 0) + fullness * sounding.Length - 0.3 * fingers - 0.08 * pressed.Sum(f => f - Math.Max(0, position))
            - (position > 0 ? 0.5 + 0.12 * position : 0) - 0.5 * missing + quirks[(pitches.Sum() + 7 * sounding.Length) % quirks.Length] * 0.4;
        if (score > most)
            (best, most) = ([.. frets], score);
    }
}
