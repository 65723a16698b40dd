using System.Collections.Immutable;
using SkiaSharp;

namespace Harkbook.Publishing.Drawings;

/// <summary>Glyphs of one font: places at size 1, the size and rise of a sign borrowed from another font.</summary>
internal sealed record GlyphRun(Face Face, string Text, ushort[] Glyphs, SKPoint[] Places, uint[] Clusters, float Size);

/// <summary>A text as glyphs at size 1, with its advance and the box that its ink fills about the baseline.</summary>
internal sealed class ShapedText
{
    private const float Em = 100;

    private ShapedText(ImmutableArray<GlyphRun> runs, double advance, Box ink) => (Runs, Advance, Ink) = (runs, advance, ink);

    public ImmutableArray<GlyphRun> Runs { get; }

    public double Advance { get; }

    public Box Ink { get; }

    public static ShapedText Of(IEnumerable<(string Text, Face Face)> segments, ImmutableArray<GlyphShaper> shapers)
    {
        var runs = ImmutableArray.CreateBuilder<GlyphRun>();
        var x = 0f;
        foreach (var (text, face) in segments)
        {
            var (size, rise) = face == Face.Music ? Fitted(text) : (1f, 0f);
            var run = shapers[(int)face].Shape(text);
            var places = Array.ConvertAll(run.Places, p => new SKPoint(x + p.X * size, p.Y * size - rise));
            runs.Add(new(face, text, run.Glyphs, places, run.Clusters, size));
            x += run.Advance * size;
        }
        var all = runs.ToImmutable();
        return new(all, x, InkOf(all));
    }

    /// <summary>The outline at a size, without the first glyphs where another drawing of them stands.</summary>
    public SKPath Outline(double size, float left, float baseline, int skipped)
    {
        using var builder = new SKPathBuilder();
        foreach (var run in Runs)
        {
            using var font = FontBook.Font(run.Face, size * run.Size);
            for (var i = run == Runs[0] ? skipped : 0; i < run.Glyphs.Length; i++)
            {
                using var glyph = font.GetGlyphPath(run.Glyphs[i]);
                if (glyph is not null)
                    builder.AddPath(glyph, left + run.Places[i].X * (float)size, baseline + run.Places[i].Y * (float)size, SKPathAddMode.Append);
            }
        }
        return builder.Detach();
    }

    // The music font draws accidentals for a staff, low and of uneven height: lift and size them to stand beside capitals.
    private static (float Size, float Rise) Fitted(string text) => text[0] switch
    {
        '♯' => (0.86f, 0.195f),
        '♭' => (1.2f, 0.04f),
        '♮' => (1.05f, 0.25f),
        _ => (0.9f, 0f),
    };

    private static Box InkOf(ImmutableArray<GlyphRun> runs)
    {
        Box? ink = null;
        foreach (var run in runs)
        {
            using var font = FontBook.Font(run.Face, Em * run.Size);
            for (var i = 0; i < run.Glyphs.Length; i++)
            {
                using var path = font.GetGlyphPath(run.Glyphs[i]);
                if (path is null || path.IsEmpty)
                    continue;
                var b = path.TightBounds;
                var box = new Box(b.Left / Em, b.Top / Em, b.Right / Em, b.Bottom / Em).Moved(run.Places[i].X, run.Places[i].Y);
                ink = ink?.Union(box) ?? box;
            }
        }
        return ink ?? default;
    }
}
