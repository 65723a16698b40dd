using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Voicings;

/// <summary>A playable shape and how well it explains pitches that were heard.</summary>
/// <param name="Shape">Frets with the fingering's fingers.</param>
/// <param name="Score">1 at best: the share of the heard strength that it sounds, less what is unheard and hard to play.</param>
/// <param name="Matched">MIDI numbers heard that it sounds, rising.</param>
/// <param name="Missing">MIDI numbers heard that it doesn't sound, rising.</param>
/// <param name="Extra">MIDI numbers that it sounds and nobody heard, rising.</param>
public sealed record FittedShape(
    Shape Shape, ShapeFingering Fingering, double Score, ImmutableArray<int> Matched, ImmutableArray<int> Missing, ImmutableArray<int> Extra);

/// <summary>Finds the playable shapes that best explain a set of sounding pitches, whatever the chord is called.</summary>
public static class ShapeFit
{
    /// <summary>The best shapes first. Empty when nothing was heard or no playable shape sounds any of it.</summary>
    /// <param name="sounding">How strongly each pitch (MIDI number) sounded, 0 to 1.</param>
    /// <param name="previous">The shape played before; staying near it then counts.</param>
    public static ImmutableArray<FittedShape> Find(
        IReadOnlyDictionary<int, double> sounding, Tuning tuning, Capo capo, ShapeFitOptions? options = null, Shape? previous = null)
    {
        options ??= ShapeFitOptions.Usual;
        var board = new Fretboard(tuning, capo, options.Playing.NeckFrets);
        var heard = new HeardPitches(sounding, options);
        if (heard.Total == 0)
            return [];
        var found = new List<(double Cost, PackedFrets Frets)>();
        new NeckWalk(board, options.Playing, (i, fret) => heard.Admits(board.MidiAt(i, fret)), frets =>
        {
            if (Cost(frets, board, heard, options, previous) is { } cost)
                found.Add((cost, PackedFrets.Of(frets)));
        }).Walk();
        return [.. new PlayableRanking(board, options.Playing.Hand, options.Results, options.EaseWeight).Take(found)
            .Select(e => Explained(e, board, heard))];
    }

    /// <summary>1 less the score, without the fingering's effort; null when the shape lacks a pitch that must sound or matches none.</summary>
    private static double? Cost(int[] frets, Fretboard board, HeardPitches heard, ShapeFitOptions options, Shape? previous)
    {
        Span<int> midi = stackalloc int[12];
        var count = Sounding(frets, board, midi);
        var match = heard.Match(midi[..count]);
        return match is null || count < (options.Playing.MinStrings ?? 1)
            ? null
            : 1 - match.Value + options.EaseWeight * VoicingScorer.HandCost(frets, board, previous).Total;
    }

    private static int Sounding(int[] frets, Fretboard board, Span<int> midi)
    {
        var count = 0;
        for (var i = 0; i < frets.Length; i++)
        {
            if (frets[i] >= 0)
                midi[count++] = board.MidiAt(i, frets[i]);
        }
        return count;
    }

    private static FittedShape Explained(PlayableRanking.Entry entry, Fretboard board, HeardPitches heard)
    {
        var sounds = entry.Shape.Pitches(board.Tuning, board.Capo).Select(p => p.Midi).Distinct().Order().ToArray();
        return new(
            entry.Shape, entry.Fingering, 1 - entry.Total,
            [.. sounds.Where(heard.IsHeard)], [.. heard.All.Except(sounds)], [.. sounds.Where(m => !heard.IsHeard(m))]);
    }
}
