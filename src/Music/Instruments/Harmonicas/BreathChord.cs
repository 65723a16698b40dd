using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Harmonicas;

/// <summary>Neighbouring holes sounded on one breath, unbent.</summary>
/// <param name="Pitches">From the lowest hole up.</param>
public sealed record BreathChord(Breath Breath, int FirstHole, int LastHole, ImmutableArray<Pitch> Pitches)
{
    public IEnumerable<HarpNote> Notes => Enumerable.Range(FirstHole, Pitches.Length).Select(hole => new HarpNote(hole, Breath));

    /// <summary>Sounding pitch classes, 0 (C) to 11, rising, each once.</summary>
    public ImmutableArray<int> PitchClasses => [.. Pitches.Select(p => p.Name.PitchClass).Distinct().Order()];

    public override string ToString() => $"{(Breath == Breath.Blow ? '+' : '-')}{FirstHole}–{LastHole}";
}

/// <summary>Which chords a harmonica has on neighbouring holes.</summary>
public static class BreathChords
{
    /// <summary>The holes from one to another on one breath.</summary>
    public static BreathChord Together(this Harmonica harp, Breath breath, int firstHole, int lastHole) =>
        firstHole >= 1 && lastHole >= firstHole && lastHole <= harp.Holes
            ? new(breath, firstHole, lastHole, [.. Enumerable.Range(firstHole, lastHole - firstHole + 1).Select(h => harp.PitchOf(new(h, breath)))])
            : throw new ArgumentOutOfRangeException(nameof(lastHole), $"{firstHole}–{lastHole}",
                $"Holes run from 1 to {harp.Holes}, the first not above the last.");

    /// <summary>Every run of 2 to 5 neighbouring holes on either breath.</summary>
    public static IEnumerable<BreathChord> AllTogether(this Harmonica harp) =>
        from breath in Enum.GetValues<Breath>()
        from first in Enumerable.Range(1, harp.Holes)
        from count in Enumerable.Range(2, 4)
        where first + count - 1 <= harp.Holes
        select harp.Together(breath, first, first + count - 1);

    /// <summary>Runs of holes that sound all the notes of a chord and no other; empty when the harmonica hasn't got the chord.</summary>
    public static ImmutableArray<BreathChord> TogetherFor(this Harmonica harp, Chord chord) =>
        chord.IsNone ? [] : [.. harp.AllTogether().Where(run => run.PitchClasses.SequenceEqual(chord.PitchClasses))];

    /// <summary>Runs of holes that sound at least two notes of a chord and no other, the fullest first.</summary>
    public static ImmutableArray<BreathChord> TogetherWithin(this Harmonica harp, Chord chord) =>
        [.. harp.AllTogether()
            .Where(run => run.PitchClasses.Length >= 2 && run.PitchClasses.All(chord.PitchClasses.Contains))
            .OrderByDescending(run => run.PitchClasses.Length)];
}
