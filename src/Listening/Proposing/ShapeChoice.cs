using System.Collections.Immutable;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Proposing;

/// <summary>A shape for a chord and how well it explains what was heard, 0 to 1.</summary>
internal sealed record ChosenShape(Chord Chord, Shape Shape, double Match);

/// <summary>
/// Chooses one shape for each chord over the whole song. Candidates are the playable ways to sound the chord, and what was played where that
/// doesn't contradict it; each costs what it fails to explain of the sound, what it asks of the hand, and, at each change to or from another
/// chord, the movement. Starting from the best shape of each chord alone,
/// one chord after another takes its cheapest shape among the others' until none changes (iterated conditional modes, Besag 1986).
/// </summary>
internal sealed class ShapeChoice
{
    /// <summary>What sounded outweighs what is comfortable: a sixteenth of the match weighs as much as a small barre. Our judgement.</summary>
    private const double MatchWeight = 16;

    private const double PlacesSay = 0.7;

    /// <summary>What a shape costs that the search for the chord's ways didn't find, and each of its silent strings.</summary>
    private const double ForeignShape = 1.5, SilentString = 0.5;

    private const int Candidates = 60, MostRounds = 20;

    private readonly Hand hand;
    private readonly List<Chord> chords;
    private readonly List<(Shape Shape, double Match, double Cost)[]> candidates;
    private readonly Dictionary<(int, int), int> changes = [];

    public ShapeChoice(Hearing hearing, IEnumerable<GridChord> placed)
    {
        var strengths = HeardStrength.OfChords(hearing);
        var played = PlayedPlaces.OfChords(hearing);
        var order = placed.Where(p => !p.Chord.IsNone).Select(p => p.Chord).ToList();
        var guitar = hearing.Tuning.Best;
        hand = Hand.On(guitar.Tuning, hearing.Claims.Reach);
        var found = order.Distinct().Select(c => (Chord: c, Ways: Ways(c, guitar, strengths.GetValueOrDefault(c), played.GetValueOrDefault(c))))
            .Where(f => f.Ways.Length > 0).ToList();
        chords = [.. found.Select(f => f.Chord)];
        candidates = [.. found.Select(f => f.Ways)];
        foreach (var (a, b) in order.Zip(order.Skip(1)).Select(p => (chords.IndexOf(p.First), chords.IndexOf(p.Second)))
            .Where(p => p.Item1 >= 0 && p.Item2 >= 0 && p.Item1 != p.Item2))
            changes[(a, b)] = changes.GetValueOrDefault((a, b)) + 1;
    }

    /// <summary>In the order in which the chords first sound; a chord that no playable shape sounds is left out, and is written without one.</summary>
    public ImmutableArray<ChosenShape> Choose()
    {
        var chosen = candidates.Select(c => Array.IndexOf(c, c.MinBy(w => w.Cost))).ToArray();
        for (var round = 0; round < MostRounds; round++)
        {
            var before = chosen.ToArray();
            for (var i = 0; i < chosen.Length; i++)
                chosen[i] = Enumerable.Range(0, candidates[i].Length).MinBy(way => Cost(i, way, chosen));
            if (before.SequenceEqual(chosen))
                break;
        }
        return [.. chosen.Select((way, i) => new ChosenShape(chords[i], candidates[i][way].Shape, candidates[i][way].Match))];
    }

    private (Shape, double, double)[] Ways(Chord chord, HeardTuning guitar, HeardStrength? heard, PlayedPlaces? played)
    {
        var ways = VoicingSearch.Find(chord, guitar.Tuning, guitar.Capo,
            new() { Hand = hand, Results = Candidates }).Select(v => (v.Shape, v.Cost.Total)).ToList();
        if (played is not null && AsPlayed(played, guitar) is { } own && !ways.Any(w => w.Shape.WithoutFingers() == own.Shape.WithoutFingers()))
            ways.Add(own);
        ways.RemoveAll(w => ShapeContradiction.Of(w.Shape, guitar.Tuning, guitar.Capo, chord) is not null);
        return [.. ways.Select(w => (w.Shape, Match: Match(w.Shape, guitar, heard, played), w.Total))
            .Select(w => (w.Shape, w.Match, w.Total + MatchWeight * (1 - w.Match)))];
    }

    /// <summary>Just what was played, whatever the chord is called; null where no hand holds it.</summary>
    private (Shape Shape, double Cost)? AsPlayed(PlayedPlaces played, HeardTuning guitar)
    {
        var shape = played.Shape(guitar.Tuning.Count);
        return shape.SoundingStrings >= 2 && FingeringSolver.Solve(shape, guitar.Capo, hand).Fingering is { } fingering
            ? (shape.WithFingers(fingering.Fingers), fingering.Effort.Total + ForeignShape + SilentString * (guitar.Tuning.Count - shape.SoundingStrings)
                + shape.MutedInnerStrings.Length)
            : null;
    }

    /// <summary>Where notes were placed on strings that says most; the strength of pitches says the rest.</summary>
    private static double Match(Shape shape, HeardTuning guitar, HeardStrength? heard, PlayedPlaces? played)
    {
        var sound = heard?.Match(shape.Pitches(guitar.Tuning, guitar.Capo)) ?? 0;
        return played is null ? sound : PlacesSay * played.Match(shape, shape.PitchOfEachString(guitar.Tuning, guitar.Capo)) + (1 - PlacesSay) * sound;
    }

    /// <summary>The mean movement over a chord's changes counts once, so that neither rare nor frequent chords lose their sound to comfort.</summary>
    private double Cost(int chord, int way, int[] chosen)
    {
        var touching = changes.Where(c => c.Key.Item1 == chord || c.Key.Item2 == chord).ToList();
        var shape = candidates[chord][way].Shape;
        var movement = touching.Sum(c => c.Value * (c.Key.Item1 == chord
            ? MovementCost.Between(shape, ShapeOf(c.Key.Item2, chosen))
            : MovementCost.Between(ShapeOf(c.Key.Item1, chosen), shape)));
        return candidates[chord][way].Cost + (touching.Count == 0 ? 0 : movement / touching.Sum(c => c.Value));
    }

    private Shape ShapeOf(int chord, int[] chosen) => candidates[chord][chosen[chord]].Shape;
}
