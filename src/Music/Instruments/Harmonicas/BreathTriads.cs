using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Harmonicas;

/// <summary>A chord of three notes and the runs of neighbouring holes that sound it; none where the harmonica hasn't got it.</summary>
public sealed record BreathTriad(Chord Chord, ImmutableArray<BreathChord> Runs);

/// <summary>Which triads a harmonica can and can't sound on one breath.</summary>
public static class BreathTriads
{
    private static readonly ImmutableArray<ChordQuality> Qualities =
        [.. new[] { "1 3 5", "1 b3 5", "1 b3 b5" }.Select(ChordQuality.FromDegrees)];

    /// <summary>Every major, minor and diminished triad whose three notes are all among the unbent ones, by root up from the harmonica's key.</summary>
    public static ImmutableArray<BreathTriad> Triads(this Harmonica harp)
    {
        var there = harp.AllNotes.Where(n => n.Technique == HarpTechnique.Plain).Select(n => harp.PitchOf(n).Name).DistinctBy(n => n.PitchClass).ToArray();
        return [.. from root in there.OrderBy(n => Floor.Mod(n.PitchClass - harp.Key.PitchClass, 12))
                   from quality in Qualities
                   let chord = Chord.Of(root, quality)
                   where chord.PitchClasses.All(p => there.Any(n => n.PitchClass == p))
                   select new BreathTriad(chord, harp.TogetherFor(chord))];
    }

    /// <summary>Triads whose notes are all there, but never on neighbouring holes of one breath: on a Richter in C they are F, Am and Em.</summary>
    public static IEnumerable<Chord> TriadsOutOfReach(this Harmonica harp) => harp.Triads().Where(t => t.Runs.IsEmpty).Select(t => t.Chord);
}
