using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>How rough a moment is. A pitch that several strings or both parts sound counts once: doubling makes it louder, not rougher.</summary>
/// <param name="Together">All notes.</param>
/// <param name="Between">What guitar and harmonica add by sounding together: all of it less each one's own.</param>
public sealed record RoughMoment(Moment Moment, double Together, double Between)
{
    /// <summary>What each note of the harmonica adds on average, so that a chord of it isn't rougher for its number of notes alone; 0 where it is
    /// silent.</summary>
    public double ForEachNote => Between / Math.Max(1, Moment.Of(Layer.Harmonica).DistinctBy(n => n.Pitch.Midi).Count());

    /// <summary>The rise and fall of roughness through a song, moment by moment.</summary>
    public static ImmutableArray<RoughMoment> Through(Song song) => Through(Moments.Of(song), song.ReferencePitch.Value);

    internal static ImmutableArray<RoughMoment> Through(IEnumerable<Moment> moments, Hertz a4) => [.. moments.Select(m => Of(m, a4))];

    private static RoughMoment Of(Moment moment, Hertz a4)
    {
        var (together, between) = Roughness.OfLayers(moment.Guitar, moment.Of(Layer.Harmonica), a4);
        return new(moment, together, between);
    }
}
