using System.Collections.Immutable;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving;

/// <summary>
/// A chord's name set as type: the root large with a real sharp or flat, words of the kind small on the line, figures
/// raised, the bass behind its slash, a label (behind "@") small at the end. Found by a search as it is written: "F#m7/A".
/// </summary>
public sealed class ChordLettering
{
    private const double SignSize = 0.74;
    private const double SignRise = 0.26;
    private const double WordSize = 0.78;
    private const double FigureSize = 0.62;
    private const double FigureRise = 0.32;
    private const double BassSize = 0.8;
    private const double LabelSize = 0.5;

    private readonly ImmutableArray<TextMark>.Builder marks = ImmutableArray.CreateBuilder<TextMark>();
    private readonly double size;
    private readonly Tint tint;

    private ChordLettering(double size, Tint tint) => (this.size, this.tint) = (size, tint);

    /// <summary>Marks about a baseline that starts at (0, 0).</summary>
    public ImmutableArray<TextMark> Marks => marks.ToImmutable();

    public double Width { get; private set; }

    /// <summary>Sets a name at a size.</summary>
    public static ChordLettering Of(string name, double size, Tint tint = Tint.Ink)
    {
        var result = new ChordLettering(size, tint);
        var parts = name.Split('@', 2);
        result.SetSymbol(parts[0]);
        if (parts.Length == 2 && parts[1].Length > 0)
        {
            result.Width += size * 0.14;
            result.Put(parts[1], Face.Narrow, LabelSize, 0, Tint.Quiet, null);
        }
        return result;
    }

    /// <summary>Sets a name at a size, or smaller so that it fits a width; never below <paramref name="least"/> of the size.</summary>
    public static ChordLettering Fitting(string name, double size, double width, double least = 0.5, Tint tint = Tint.Ink)
    {
        var whole = Of(name, size, tint);
        return whole.Width <= width ? whole : Of(name, size * Math.Max(least, width / whole.Width), tint);
    }

    public void Draw(Sketch sketch, double left, double baseline) =>
        sketch.Add(Marks.Select(m => m with { At = new(m.At.X + left, m.At.Y + baseline) }));

    private void SetSymbol(string symbol)
    {
        if (symbol.Length == 0 || symbol[0] is < 'A' or > 'G' || symbol == "N.C.")
        {
            Put(symbol, Face.Strong, 1, 0, tint, null);
            return;
        }
        var slash = symbol.LastIndexOf('/');
        var chord = slash > 0 ? symbol[..slash] : symbol;
        Put(chord[..1], Face.Strong, 1, 0, tint, symbol.Length > 1 ? symbol : null);
        SetKind(SetSigns(chord[1..], 1));
        if (slash > 0)
            SetBass(symbol[(slash + 1)..]);
    }

    /// <summary>Sets leading sharps or flats and returns what follows them.</summary>
    private string SetSigns(string text, double scale)
    {
        var count = text.TakeWhile(c => c is '#' or 'b').Count();
        if (count > 0)
            Put(PitchText.Signed(text[..count]), Face.Text, SignSize * scale, SignRise * scale, tint, "");
        return text[count..];
    }

    private void SetKind(string kind)
    {
        var letters = kind.TakeWhile(char.IsAsciiLetter).Count();
        if (letters > 0)
            Put(kind[..letters], Face.Strong, WordSize, 0, tint, "");
        if (letters < kind.Length)
        {
            Width += size * 0.02;
            Put(PitchText.Signed(kind[letters..]), Face.Strong, FigureSize, FigureRise, tint, "");
        }
    }

    private void SetBass(string bass)
    {
        Put("/", Face.Text, 1, 0, tint, "");
        var isNote = bass is [>= 'A' and <= 'G', ..];
        Put(isNote ? bass[..1] : bass, Face.Strong, BassSize, 0, tint, "");
        if (isNote && SetSigns(bass[1..], BassSize) is { Length: > 0 } rest)
            Put(rest, Face.Strong, BassSize, 0, tint, "");
    }

    private void Put(string text, Face face, double scale, double rise, Tint colour, string? says)
    {
        if (text.Length == 0)
            return;
        var mark = new TextMark(text, new(Width, -rise * size), face, size * scale, colour, says);
        marks.Add(mark);
        Width += mark.Width;
    }
}
