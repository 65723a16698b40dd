using System.Collections.Immutable;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Voicings;

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
        options ??= VoicingOptions.Usual with { Hand = Hand.On(tuning) };
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
        return [.. new PlayableRanking(board, options.Hand, options.Results, effortWeight: 1).Take(found).Select(e =>
            new Voicing(e.Shape, e.Fingering, scorer.Score(e.Frets, minStrings)!.Value with { Effort = e.Fingering.Effort }))];
    }
}
