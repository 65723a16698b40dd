using System.Collections.Immutable;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Hands;

/// <summary>Other shapes for a song's chords that sound the same notes over the same bass, and what each costs where the song uses it.</summary>
internal sealed class ShapeSearch
{
    private readonly Song song;
    private readonly Dictionary<string, ImmutableArray<Voicing>> others = [];
    private readonly ImmutableArray<MadeChange> changes;
    private readonly Fretboard neck;
    private readonly Hand hand;

    public ShapeSearch(Song song)
        : this(song, ShapeChanges.Of(song))
    {
    }

    /// <param name="changes">The song's changes of shape.</param>
    public ShapeSearch(Song song, ImmutableArray<MadeChange> changes) =>
        (this.song, this.changes, neck, hand) = (song, changes, new(song.Tuning.Value, song.Capo.Value), Hand.On(song.Tuning.Value));

    /// <summary>Chords that could be held otherwise: with a shape that a hand can play, and not picked, where the shape is heard note by note.</summary>
    public IEnumerable<ChordUse> Uses()
    {
        var picked = song.Bars.Where(b => !b.Picked.IsEmpty).SelectMany(b => b.Chords).Select(c => c.Value.Name).ToHashSet();
        return ShapeChanges.Uses(song).Select(u => u.Use).DistinctBy(u => u.Name)
            .Where(u => u.Shape is not null && !u.Chord.IsNone && !picked.Contains(u.Name) && Fingering(u.Shape) is not null);
    }

    public ImmutableArray<Voicing> Others(ChordUse use)
    {
        if (!others.TryGetValue(use.Name, out var found))
            others[use.Name] = found = [.. VoicingSearch.Find(use.Chord, neck.Tuning, neck.Capo).Where(v => SoundsAlike(v.Shape, use.Shape!))];
        return found;
    }

    /// <summary>What the hand pays: the shape itself, and moving into it and out of it, on average.</summary>
    public double Cost(ChordUse use, Shape shape, ShapeFingering fingering)
    {
        var own = VoicingScorer.HandCost([.. shape.Frets.Select(f => f ?? -1)], neck, null) with { Effort = fingering.Effort };
        return own.Total + Around(use, before => MovementCost.Between(before, shape), after => MovementCost.Between(shape, after));
    }

    public double OwnCost(ChordUse use) => Cost(use, use.Shape!, Fingering(use.Shape!)!);

    /// <summary>Semitones that the strings move into the shape and out of it, on average.</summary>
    public double Motion(ChordUse use, Shape shape) => Around(use, before => Semitones(before, shape), after => Semitones(shape, after));

    private ShapeFingering? Fingering(Shape shape) => FingeringSolver.Check(shape, neck.Capo, hand).Fingering;

    private double Around(ChordUse use, Func<Shape, double> into, Func<Shape, double> outOf)
    {
        var before = changes.Where(c => c.Change.To.Name == use.Name).SelectMany(c => c.Places.Select(_ => into(c.Change.From.Shape!)));
        var after = changes.Where(c => c.Change.From.Name == use.Name).SelectMany(c => c.Places.Select(_ => outOf(c.Change.To.Shape!)));
        return before.DefaultIfEmpty(0).Average() + after.DefaultIfEmpty(0).Average();
    }

    private static double Semitones(Shape from, Shape to) =>
        from.Frets.Length == to.Frets.Length ? Enumerable.Range(0, from.Frets.Length).Sum(i => Math.Abs(to.Frets[i] - from.Frets[i] ?? 0)) : 0;

    private bool SoundsAlike(Shape other, Shape own) =>
        !other.Frets.SequenceEqual(own.Frets)
        && other.PitchClasses(neck.Tuning, neck.Capo).SequenceEqual(own.PitchClasses(neck.Tuning, neck.Capo))
        && other.Bass(neck.Tuning, neck.Capo)?.Name.PitchClass == own.Bass(neck.Tuning, neck.Capo)?.Name.PitchClass
        && other.SoundingStrings >= own.SoundingStrings - 1
        && KeepsStrings(other, own);

    /// <summary>The highest string, which carries the tune, sounds on; on four strings or fewer so does every one.</summary>
    private static bool KeepsStrings(Shape other, Shape own) =>
        Enumerable.Range(0, own.Frets.Length).Where(i => own.Frets[i] is not null).TakeLast(own.Frets.Length <= 4 ? own.Frets.Length
            : 1).All(i => other.Frets[i] is not null);
}
