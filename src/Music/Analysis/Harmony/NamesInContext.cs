using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Analysis.Harmony;

/// <summary>
/// Names for notes that sound together, as <see cref="ChordNaming"/> ranks them, weighed with the chords around them: a root that falls a fifth
/// to the next chord, that its own five chord leads to, or that stays while the bass walks, speaks for a name. Before a chord a fifth below, a
/// dominant without its root is tried too.
/// </summary>
/// <remarks>The weights are our judgement, as those of <see cref="ChordNaming"/> are; they only set the order of names.</remarks>
public static class NamesInContext
{
    private const double TooFarFetched = 3;

    /// <summary>Gb and A# on the line of fifths.</summary>
    private const int FlattestSaid = -6, SharpestSaid = 10;

    private const double FallsAFifth = -.5;
    private const double ComesFromItsFive = -.7;
    private const double BassWalks = -.8;
    private const double RootStays = -.3;
    private const double Rootless = 2.2;
    private const double RootlessResolves = -1.6;

    /// <summary>Names for sounding pitches; the lowest is the bass.</summary>
    public static ImmutableArray<NameInContext> Rank(IEnumerable<Pitch> pitches, Key? key = null, Chord? before = null, Chord? after = null)
    {
        var sorted = pitches.Order().ToList();
        return sorted.Count == 0
            ? [.. ChordNaming.Rank([], key).Select(n => new NameInContext(n, n.Cost, []))]
            : Rank(sorted.Select(p => p.Name), sorted[0].Name, key, before, after);
    }

    /// <summary>
    /// Names for pitches of which none is the bass, as on a re-entrant instrument: a ukulele's lowest string lies in the middle, and its players
    /// write no slashes (common practice).
    /// </summary>
    public static ImmutableArray<NameInContext> RankWithoutBass(IEnumerable<Pitch> pitches, Key? key = null, Chord? before = null, Chord? after = null)
    {
        PitchName[] notes = [.. pitches.Select(p => p.Name)];
        var rooted = notes.DistinctBy(n => n.PitchClass).SelectMany(bass => Rank(notes, bass, key, before, after))
            .Where(n => n.Name.Chord.Bass == n.Name.Chord.Root).GroupBy(n => n.Name.Symbol, (_, names) => names.MinBy(n => n.Cost)!);
        return notes.Length == 0 ? Rank([], key) : [.. rooted.OrderBy(n => n.Cost).Select(n => n with { Name = n.Name with { HasBass = false } })];
    }

    /// <param name="notes">Notes over the bass, which may stand among them too.</param>
    /// <param name="before">The chord before, null where unknown.</param>
    /// <param name="after">The chord after, null where unknown.</param>
    public static ImmutableArray<NameInContext> Rank(IEnumerable<PitchName> notes, PitchName bass, Key? key = null, Chord? before = null, Chord? after = null)
    {
        var all = notes.ToImmutableArray();
        var (earlier, later) = (before is { IsNone: true } ? null : before, after is { IsNone: true } ? null : after);
        var weighed = ChordNaming.Rank(all, bass, key).Select(n => Weigh(n, earlier, later));
        return [.. weighed.Concat(WithoutRoot(new(all, bass), key, later)).OrderBy(n => n.Cost)];
    }

    /// <summary>
    /// Of ranked names those that somebody would say: not much more far-fetched than the first, and with root and bass spelled as they are said
    /// (no double sharp or flat, and E#, B#, Fb and Cb only where the key has them). The first stays.
    /// </summary>
    public static ImmutableArray<NameInContext> Said(ImmutableArray<NameInContext> ranked, Key? key = null) =>
        [.. ranked.Where((n, i) => i == 0 || (n.Cost <= ranked[0].Cost + TooFarFetched && IsSaid(n.Name.Chord.Root, key) && IsSaid(n.Name.Chord.Bass, key)))];

    private static bool IsSaid(PitchName name, Key? key) =>
        name.Fifths is >= FlattestSaid and <= SharpestSaid || key?.Contains(name) == true;

    private static NameInContext Weigh(ChordName name, Chord? before, Chord? after)
    {
        var found = Weights(name.Chord, before, after).ToList();
        return new(name, name.Cost + found.Sum(f => f.Weight), [.. found.Select(f => f.Words)]);
    }

    private static IEnumerable<(double Weight, string Words)> Weights(Chord chord, Chord? before, Chord? after)
    {
        if (chord.IsNone)
            yield break;
        if (after is not null && IsFifthAbove(chord.Root, after.Root))
            yield return (FallsAFifth, $"its root falls a fifth to {ChordSpeech.Of(after.Root)}, which follows");
        if (before is not null && ChordTraits.HasMajorThird(before.Quality) && IsFifthAbove(before.Root, chord.Root))
            yield return (ComesFromItsFive, $"{ChordSpeech.Of(before)}, its five chord, leads to it");
        var holds = new[] { before, after }.OfType<Chord>().FirstOrDefault(n => n.Root.PitchClass == chord.Root.PitchClass);
        if (holds is not null && before is not null && after is not null && Walks(before.Bass, chord.Bass, after.Bass))
            yield return (BassWalks, $"the bass walks from {ChordSpeech.Of(before.Bass)} to {ChordSpeech.Of(after.Bass)} while {ChordSpeech.Of(holds.Root)} "
                + "stays the root");
        else if (holds is not null)
            yield return (RootStays, $"{ChordSpeech.Of(holds)}, beside it, has the same root");
    }

    private static bool IsFifthAbove(PitchName upper, PitchName lower) => Floor.Mod(upper.PitchClass - lower.PitchClass, 12) == 7;

    /// <summary>Two steps of a half or whole tone the same way.</summary>
    private static bool Walks(PitchName from, PitchName through, PitchName to)
    {
        var (first, second) = (Step(from, through), Step(through, to));
        return first != 0 && second != 0 && Math.Sign(first) == Math.Sign(second);
    }

    /// <summary>A step of one or two semitones, negative downwards; 0 for anything else.</summary>
    private static int Step(PitchName from, PitchName to) =>
        Floor.Mod(to.PitchClass - from.PitchClass, 12) switch { 1 => 1, 2 => 2, 10 => -2, 11 => -1, _ => 0 };

    private static IEnumerable<NameInContext> WithoutRoot(SoundingNotes notes, Key? key, Chord? after)
    {
        if (after is null || int.PopCount(notes.Mask) < 3)
            yield break;
        var root = Floor.Mod(after.Root.PitchClass + 7, 12);
        var above = new Tones(notes.Above(root, notes.Mask));
        if (above.Has(0) || !above.Has(4) || !above.Has(10) || !above.IsIn(RootlessDominant))
            yield break;
        var reading = ChordReading.Of(above.With(0).Mask);
        var name = RootSpelling.Root(root, reading.Quality, notes, key);
        var inBass = reading.Quality.Intervals.First(i => Floor.Mod(i.Semitones, 12) == Floor.Mod(notes.Bass.PitchClass - root, 12));
        var chord = Chord.Of(name, reading.Quality, name + inBass);
        var cost = reading.WholeCost + Rootless + ChordNaming.Fit(chord, key);
        yield return new(new(chord, cost, [Interval.Unison, .. reading.LeftOut], key), cost + RootlessResolves,
            [$"without its root it is the five chord of {ChordSpeech.Of(after.Root)}, which follows"]);
    }

    /// <summary>Third and seventh with the fifth, plain or flat ninth, sharp ninth and thirteenth.</summary>
    private static Tones RootlessDominant => new(1 << 1 | 1 << 2 | 1 << 3 | 1 << 4 | 1 << 7 | 1 << 9 | 1 << 10);
}
