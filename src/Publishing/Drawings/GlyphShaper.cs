using HarfBuzzSharp;
using SkiaSharp;
using SkiaSharp.HarfBuzz;

namespace Harkbook.Publishing.Drawings;

/// <summary>Turns text into glyphs of one font with HarfBuzz, in the font's own units, so that no width is rounded. Not for several threads.</summary>
internal sealed class GlyphShaper
{
    private readonly Font font;
    private readonly float unitsPerEm;

    public GlyphShaper(SKTypeface typeface)
    {
        using var stream = typeface.OpenStream(out var index);
        unitsPerEm = typeface.UnitsPerEm;
        font = new Font(new HarfBuzzSharp.Face(stream.ToHarfBuzzBlob(), index));
        font.SetScale(typeface.UnitsPerEm, typeface.UnitsPerEm);
        font.SetFunctionsOpenType();
    }

    /// <summary>Glyphs, their places at size 1 and, for each, the byte of the UTF-8 text that it begins at.</summary>
    public (ushort[] Glyphs, SKPoint[] Places, uint[] Clusters, float Advance) Shape(string text)
    {
        using var buffer = new HarfBuzzSharp.Buffer();
        buffer.AddUtf8(text);
        buffer.GuessSegmentProperties();
        font.Shape(buffer);
        var (infos, positions) = (buffer.GlyphInfos, buffer.GlyphPositions);
        var places = new SKPoint[infos.Length];
        var x = 0f;
        for (var i = 0; i < infos.Length; i++)
        {
            places[i] = new(x + positions[i].XOffset / unitsPerEm, -positions[i].YOffset / unitsPerEm);
            x += positions[i].XAdvance / unitsPerEm;
        }
        return (Array.ConvertAll(infos, g => (ushort)g.Codepoint), places, Array.ConvertAll(infos, g => g.Cluster), x);
    }
}
