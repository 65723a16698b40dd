using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments;

/// <summary>
/// Finds every way to play a chord on an instrument and ranks the ways by what they ask of the hand and give to the ear.
/// Exhaustive within the options; the same question always gets the same answer.
/// </summary>
public static class VoicingSearch
{
    /// <summary>
    /// The best shapes, cheapest first; every sounding note belongs to the chord. Empty when the chord is "no chord" or no
    /// playable shape keeps to the options.
    /// </summary>
    /// <param name="previous">The shape played before; movement from it then counts.</param>
    public static ImmutableArray<Voicing> Find(Chord chord, Tuning tuning, Capo capo, VoicingOptions? options = null, Shape? previous = null)
    {
        options ??= VoicingOptions.Usual;
        if (chord.IsNone)
            return [];
        var board = new Fretboard(tuning, capo, options.NeckFrets);
        if (options.Bass != BassRule.Usual)
            return Find(chord, board, options, options.Bass, previous);
        if (tuning.IsReentrant)
            return Find(chord, board, options, BassRule.Free, previous);
        var exact = tuning.Count >= 5 ? Find(chord, board, options, BassRule.Exact, previous) : [];
        return exact.IsEmpty ? Find(chord, board, options, BassRule.Preferred, previous) : exact;
    }

    private static ImmutableArray<Voicing> Find(Chord chord, Fretboard board, VoicingOptions options, BassRule bass, Shape? previous)
    {
        var tones = new ChordTones(chord, options.MayOmit);
        var scorer = new VoicingScorer(board, tones, bass, previous);
        var minStrings = options.MinStrings ?? Math.Min(3, Math.Min(board.Tuning.Count, tones.Count));
        var found = new List<(double Cost, PackedFrets Frets)>();
        new NeckWalk(board, options, (i, fret) => tones.Allows(board.MidiAt(i, fret)), frets =>
        {
            if (scorer.Score(frets, minStrings) is { } cost)
                found.Add((cost.Total, PackedFrets.Of(frets)));
        }).Walk();
        return Ranked(found, frets => scorer.Score(frets, minStrings)!.Value, board, options);
    }

    /// <summary>Fingers only as many as the ranking needs: a fingering never makes a shape cheaper.</summary>
    private static ImmutableArray<Voicing> Ranked(
        List<(double Cost, PackedFrets Frets)> found, Func<int[], VoicingCost> costOf, Fretboard board, VoicingOptions options)
    {
        var search = new FingerSearch(options.Hand);
        var best = new PriorityQueue<Voicing, double>();
        found.Sort((a, b) => a.Cost.CompareTo(b.Cost) is var byCost and not 0 ? byCost : a.Frets.Bits.CompareTo(b.Frets.Bits));
        foreach (var (cost, packed) in found)
        {
            if (best.Count == options.Results && best.TryPeek(out _, out var worst) && cost >= -worst)
                break;
            var frets = packed.Unpacked(board.Tuning.Count);
            if (Fingered(frets, costOf(frets), board.Capo, search) is not { } voicing)
                continue;
            best.Enqueue(voicing, -voicing.Cost.Total);
            if (best.Count > options.Results)
                best.Dequeue();
        }
        return [.. best.UnorderedItems.Select(item => item.Element).OrderBy(v => v.Cost.Total).ThenBy(v => v.Shape.ToString(), StringComparer.Ordinal)];
    }

    private static Voicing? Fingered(int[] frets, VoicingCost cost, Capo capo, FingerSearch search)
    {
        int?[] shape = [.. frets.Select(f => f < 0 ? (int?)null : f)];
        var pressed = PressedString.Of(shape, capo);
        if (FingeringSolver.BehindCapo(pressed, shape, capo) is not null || search.Easiest(shape, pressed) is not { } fingering)
            return null;
        return new(Shape.Of([.. shape]).WithFingers(fingering.Fingers), fingering, cost with { Effort = fingering.Effort });
    }
}
