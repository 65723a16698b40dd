using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Text;
using SkiaSharp;

namespace Harkbook.Publishing.Drawings;

/// <summary>
/// The font files built into this assembly, and the one place where text is measured: every writer draws the glyphs
/// and places found here. Safe to use from several threads.
/// </summary>
public static class FontBook
{
    private const int KeptTexts = 20_000;
    private static readonly (string File, string Family, int Weight)[] Files =
    [
        ("IBMPlexSans-Regular", "IBM Plex Sans", 400), ("IBMPlexSans-SemiBold", "IBM Plex Sans", 600),
        ("IBMPlexSansCondensed-Regular", "IBM Plex Sans Condensed", 400), ("IBMPlexSansCondensed-SemiBold", "IBM Plex Sans Condensed", 600),
        ("IBMPlexMono-Medium", "IBM Plex Mono", 500), ("NotoMusic-Regular", "Noto Music", 400),
    ];

    private static readonly ImmutableArray<SKTypeface> Typefaces = [.. Files.Select(f => Load(f.File))];
    private static readonly ImmutableArray<SKFont> Fonts = [.. Typefaces.Select(t => new SKFont(t))];
    private static readonly ImmutableArray<GlyphShaper> Shapers = [.. Typefaces.Select(t => new GlyphShaper(t))];
    private static readonly ConcurrentDictionary<(string, Face), ShapedText> Shaped = new();
    private static readonly Lock Shaping = new();

    internal static SKTypeface Typeface(Face face) => Typefaces[(int)face];

    /// <summary>The family and weight by which a browser or editor that has the font knows it.</summary>
    public static (string Family, int Weight) Known(Face face) => (Files[(int)face].Family, Files[(int)face].Weight);

    /// <summary>The advance width of a text in points.</summary>
    public static double Width(string text, Face face, double size) => Shape(text, face).Advance * size;

    /// <summary>The height of capitals and of figures, in parts of the size.</summary>
    public const double CapHeight = 0.698;

    /// <summary>The characters of a text that no font here can draw (they show as an empty box).</summary>
    public static ImmutableArray<Rune> Lacks(string text) =>
        [.. text.EnumerateRunes().Where(r => !Rune.IsWhiteSpace(r) && !Fonts.Any(f => f.ContainsGlyph(r.Value))).Distinct()];

    /// <summary>Glyphs and places of a text at size 1.</summary>
    internal static ShapedText Shape(string text, Face face)
    {
        if (Shaped.TryGetValue((text, face), out var known))
            return known;
        if (Shaped.Count > KeptTexts)
            Shaped.Clear();
        lock (Shaping)
            return Shaped[(text, face)] = ShapedText.Of(Segments(text, face), Shapers);
    }

    internal static SKFont Font(Face face, double size) =>
        new(Typeface(face), (float)size) { Subpixel = true, LinearMetrics = true, Hinting = SKFontHinting.None, Edging = SKFontEdging.Antialias };

    private static IEnumerable<(string Text, Face Face)> Segments(string text, Face face)
    {
        var run = new StringBuilder();
        var current = face;
        foreach (var rune in text.EnumerateRunes())
        {
            var needed = FaceWith(rune, face, current);
            if (needed != current && run.Length > 0)
            {
                yield return (run.ToString(), current);
                run.Clear();
            }
            current = needed;
            run.Append(rune.ToString());
        }
        if (run.Length > 0)
            yield return (run.ToString(), current);
    }

    private static Face FaceWith(Rune rune, Face wanted, Face current)
    {
        if (Rune.GetUnicodeCategory(rune) is System.Globalization.UnicodeCategory.NonSpacingMark && Has(current, rune))
            return current;
        var wide = wanted is Face.Strong or Face.NarrowStrong ? Face.Strong : Face.Text;
        foreach (var face in (ReadOnlySpan<Face>)[wanted, wide, Face.Text, Face.Music])
        {
            if (Has(face, rune))
                return face;
        }
        return wanted;
    }

    private static bool Has(Face face, Rune rune) => Fonts[(int)face].ContainsGlyph(rune.Value);

    private static SKTypeface Load(string name)
    {
        using var stream = typeof(FontBook).Assembly.GetManifestResourceStream($"fonts/{name}.ttf")
            ?? throw new InvalidOperationException($"The font {name} was not built into the assembly; data/fonts is the likely cause.");
        return SKTypeface.FromStream(stream) ?? throw new InvalidOperationException($"The font {name} could not be read.");
    }
}
