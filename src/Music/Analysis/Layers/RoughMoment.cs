using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>How rough a moment is. A pitch that several strings or both parts sound counts once: doubling makes it louder, not rougher.</summary>
/// <param name="Together">All notes.</param>
/// <param name="Between">What guitar and harmonica add by sounding together: all of it less each one's own.</param>
public sealed record RoughMoment(Moment Moment, double Together, double Between)
{
    /// <summary>What each note of the harmonica adds on average, so that a chord of it isn't rougher for its number of notes alone; 0 where it is silent.</summary>
    public double ForEachNote => Between / Math.Max(1, Moment.Of(Layer.Harmonica).DistinctBy(n => n.Pitch.Midi).Count());

    /// <summary>The rise and fall of roughness through a song, moment by moment.</summary>
    public static ImmutableArray<RoughMoment> Through(Song song) =>
        [.. Moments.Of(song).Select(m => Of(m, song))];

    private static RoughMoment Of(Moment moment, Song song)
    {
        var a4 = song.ReferencePitch.Value;
        var guitar = Pitches(moment.Guitar, []);
        var harmonica = Pitches(moment.Of(Layer.Harmonica), guitar);
        var together = Roughness.Of([.. guitar, .. harmonica], a4);
        return new(moment, together, together - Roughness.Of(guitar, a4) - Roughness.Of(harmonica, a4));
    }

    private static ImmutableArray<Pitch> Pitches(IEnumerable<LayerNote> notes, ImmutableArray<Pitch> without) =>
        [.. notes.Select(n => n.Pitch).DistinctBy(p => p.Midi).Where(p => without.All(w => w.Midi != p.Midi))];
}
