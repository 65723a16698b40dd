using Harkbook.Units;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>A note on the song's own count.</summary>
/// <param name="Start">Felt beats from the song's start.</param>
/// <param name="End">Where it stops, on the same count.</param>
internal readonly record struct SoundingEvent(Beats Start, Beats End, LayerNote Note)
{
    public bool Sounds(Beats from, Beats to) => Start < to && End > from;
}
