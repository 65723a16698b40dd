using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Voicings;

/// <summary>The costs of a combination of frets that need no fingering, and those that any shape has beside its fingering.</summary>
internal sealed class VoicingScorer(Fretboard board, ChordTones tones, BassRule bass, Shape? previous)
{
    private const double InnerGap = 1.0;
    private const double PerFret = 0.13;
    private const double WrongBass = 2.0;
    private const double RootIsBetter = 0.5;
    private const double UnusedString = 0.3;
    private const double ForeignAbove = 0.6;
    private const double LowThird = 0.12;
    private const double SeldomTaught = 1.2;
    private const int MuddyBelow = 48, FreeOfTheBody = 12;

    private readonly int[] open = [.. Enumerable.Range(0, board.Tuning.Count).Select(i => board.MidiAt(i, 0))];
    private readonly HashSet<PackedFrets> taught = Taught(board, tones);

    /// <summary>Null when the combination lacks a required note, sounds too few strings or has a forbidden bass.</summary>
    public VoicingCost? Score(int[] frets, int minStrings)
    {
        Span<int> times = stackalloc int[12];
        var (sounding, strings, lowest, next) = Heard(frets, times);
        if (strings < minStrings || (sounding & tones.Required) != tones.Required)
            return null;
        if (bass == BassRule.Exact && lowest % 12 != tones.Bass)
            return null;
        return HandCost(frets, board, previous) with
        {
            Bass = BassCost(lowest % 12),
            Missing = tones.MissingCost(sounding),
            Doubling = DoublingCost(times, lowest, next),
            Thinness = ThinCost(frets, frets.Length - strings),
            Unusual = taught.Count == 0 || taught.Contains(PackedFrets.Of(frets)) ? 0 : SeldomTaught,
        };
    }

    /// <summary>Gaps, position, open strings and movement; the fingering's effort comes later.</summary>
    public static VoicingCost HandCost(int[] frets, Fretboard board, Shape? previous)
    {
        var (first, opens) = FirstAndOpens(frets, board);
        return new()
        {
            Gaps = InnerGap * Gaps(frets),
            Position = PerFret * Math.Max(0, first - 1),
            OpenStrings = first > 4 ? opens * 0.12 * Math.Min(4, first - 4) : 0,
            Movement = previous is null ? 0 : MovementCost.Between(previous, frets),
        };
    }

    /// <summary>The shapes of this chord that all learn, no higher than the neck is free of the body.</summary>
    private static HashSet<PackedFrets> Taught(Fretboard board, ChordTones tones) =>
        [.. CommonShapes.On(board.Tuning, board.Capo, Math.Min(FreeOfTheBody, board.LastFret(0))).Where(s => Sounds(s, board, tones))
            .Select(s => PackedFrets.Of([.. s.Frets.Select(f => f ?? -1)]))];

    private static bool Sounds(Shape shape, Fretboard board, ChordTones tones)
    {
        var pitches = shape.Frets.Select((fret, i) => fret is { } f ? board.MidiAt(i, f) : -1).Where(m => m >= 0).ToArray();
        return pitches.All(tones.Allows) && (pitches.Aggregate(0, (sounding, m) => sounding | 1 << m % 12) & tones.Required) == tones.Required;
    }

    private (int Sounding, int Strings, int Lowest, int Next) Heard(int[] frets, Span<int> times)
    {
        var (sounding, strings, lowest, next) = (0, 0, int.MaxValue, int.MaxValue);
        for (var i = 0; i < frets.Length; i++)
        {
            if (frets[i] < 0)
                continue;
            var midi = open[i] + frets[i];
            strings++;
            sounding |= 1 << (midi % 12);
            times[midi % 12]++;
            (lowest, next) = midi < lowest ? (midi, lowest) : (lowest, Math.Min(next, midi));
        }
        return (sounding, strings, lowest, next);
    }

    private double BassCost(int pitchClass) =>
        bass == BassRule.Free || pitchClass == tones.Bass ? 0
        : pitchClass == tones.Root ? WrongBass - RootIsBetter
        : WrongBass;

    private double DoublingCost(Span<int> times, int lowest, int next)
    {
        var cost = tones.IsThird(next % 12) && lowest < MuddyBelow && next - lowest < 5 ? LowThird : 0;
        for (var pitchClass = 0; pitchClass < 12; pitchClass++)
            cost += tones.DoubledCost(pitchClass, times[pitchClass]);
        return cost + (tones.ForeignBass ? ForeignAbove * (times[tones.Bass] - 1) : 0);
    }

    /// <summary>Each further silent string costs more; on the high side, where a strum must stop short, a little more still; on few strings all of it weighs
    /// more.</summary>
    private static double ThinCost(int[] frets, int silent) =>
        (UnusedString * silent + 0.1 * silent * silent + 0.12 * (frets.Length - 1 - Array.FindLastIndex(frets, f => f >= 0)))
        * 6 / frets.Length;

    private static (int First, int Opens) FirstAndOpens(int[] frets, Fretboard board)
    {
        var (first, opens) = (int.MaxValue, 0);
        for (var i = 0; i < frets.Length; i++)
        {
            opens += frets[i] == 0 ? 1 : 0;
            first = frets[i] > 0 ? Math.Min(first, board.FromNut(i, frets[i]) - board.Capo.Fret) : first;
        }
        return (first == int.MaxValue ? 0 : first, opens);
    }

    private static int Gaps(int[] frets)
    {
        var (first, last) = (Array.FindIndex(frets, f => f >= 0), Array.FindLastIndex(frets, f => f >= 0));
        var gaps = 0;
        for (var i = first; i < last; i++)
            gaps += frets[i] < 0 ? 1 : 0;
        return gaps;
    }
}
