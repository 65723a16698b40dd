using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Hands;

/// <summary>
/// Another shape for a chord of the song that sounds the same notes over the same bass and is clearly easier where the song uses it:
/// at least two fifths cheaper and by at least 1, about what a small barre costs (docs/decisions/shapes-and-costs.md).
/// </summary>
/// <param name="Chord">The chord as the song names it.</param>
/// <param name="Cost">What the hand pays for the song's shape: the shape itself, and moving into it and out of it, on average.</param>
/// <param name="EasierCost">The same for the other shape.</param>
public sealed record EasierShape(ChordUse Chord, Voicing Easier, double Cost, double EasierCost)
{
    private const double Cheaper = 0.6;
    private const double Least = 1;

    /// <summary>One for each chord that has one, in order of appearance. Chords that are picked are left out: there the shape is heard note by note.</summary>
    public static ImmutableArray<EasierShape> In(Song song)
    {
        var changes = ShapeChanges.Of(song);
        var picked = song.Bars.Where(b => !b.Picked.IsEmpty).SelectMany(b => b.Chords).Select(c => c.Value.Name).ToHashSet();
        return
        [
            .. ShapeChanges.Uses(song).Select(u => u.Use).DistinctBy(u => u.Name)
                .Where(u => u.Shape is not null && !u.Chord.IsNone && !picked.Contains(u.Name))
                .Select(u => For(u, song, changes)).OfType<EasierShape>(),
        ];
    }

    private static EasierShape? For(ChordUse use, Song song, ImmutableArray<MadeChange> changes)
    {
        var (tuning, capo) = (song.Tuning.Value, song.Capo.Value);
        if (FingeringSolver.Check(use.Shape!, capo).Fingering is not { } own)
            return null;
        var cost = Hand(use.Shape!, own, tuning, capo) + Moving(use.Shape!, use, changes);
        var others = VoicingSearch.Find(use.Chord, tuning, capo)
            .Where(v => SoundsAlike(v.Shape, use.Shape!, tuning, capo))
            .Select(v => new EasierShape(use, v, cost, Hand(v.Shape, v.Fingering, tuning, capo) + Moving(v.Shape, use, changes)));
        return others.Where(e => e.EasierCost <= cost * Cheaper && cost - e.EasierCost >= Least).MinBy(e => e.EasierCost);
    }

    private static double Hand(Shape shape, ShapeFingering fingering, Tuning tuning, Capo capo)
    {
        var cost = VoicingScorer.HandCost([.. shape.Frets.Select(f => f ?? -1)], new Fretboard(tuning, capo), null) with { Effort = fingering.Effort };
        return cost.Total;
    }

    private static double Moving(Shape shape, ChordUse use, ImmutableArray<MadeChange> changes)
    {
        var into = changes.Where(c => c.Change.To.Name == use.Name).SelectMany(c => c.Places.Select(_ => MovementCost.Between(c.Change.From.Shape!, shape)));
        var outOf = changes.Where(c => c.Change.From.Name == use.Name).SelectMany(c => c.Places.Select(_ => MovementCost.Between(shape, c.Change.To.Shape!)));
        return into.DefaultIfEmpty(0).Average() + outOf.DefaultIfEmpty(0).Average();
    }

    private static bool SoundsAlike(Shape other, Shape own, Tuning tuning, Capo capo) =>
        other.PitchClasses(tuning, capo).SequenceEqual(own.PitchClasses(tuning, capo))
        && other.Bass(tuning, capo)?.Name.PitchClass == own.Bass(tuning, capo)?.Name.PitchClass
        && other.SoundingStrings >= own.SoundingStrings - 1;
}
