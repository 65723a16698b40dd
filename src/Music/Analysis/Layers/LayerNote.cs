using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>A sounding note and what makes it.</summary>
/// <param name="Pitch">Spelled as the chord spells it, else as the key does.</param>
/// <param name="Played">In players' words: "string 3, fret 2", "draw 4".</param>
public readonly record struct LayerNote(Layer Layer, Pitch Pitch, string Played)
{
    /// <summary>A note on a string, 1 for the one on the high side.</summary>
    public static LayerNote OnString(Layer layer, Pitch pitch, int number, int fret) =>
        new(layer, pitch, string.Create(CultureInfo.InvariantCulture, $"string {number}, {(fret == 0 ? "open" : $"fret {fret}")}"));
}
