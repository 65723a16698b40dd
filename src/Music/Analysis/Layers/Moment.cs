using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>A stretch of a bar through which the same notes sound over the same chord.</summary>
/// <param name="Chord">The chord that the song claims; null where it claims none.</param>
/// <param name="Notes">From the lowest up.</param>
public sealed record Moment(SongPlace Place, ChordUse? Chord, ImmutableArray<LayerNote> Notes)
{
    public IEnumerable<LayerNote> Of(Layer layer) => Notes.Where(n => n.Layer == layer);

    /// <summary>The guitar's notes, strummed or picked.</summary>
    public IEnumerable<LayerNote> Guitar => Notes.Where(n => n.Layer is Layer.Strummed or Layer.Picked);
}
