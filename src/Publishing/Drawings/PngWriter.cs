using SkiaSharp;

namespace Harkbook.Publishing.Drawings;

/// <summary>A drawing as a PNG picture.</summary>
public static class PngWriter
{
    private const int MostPixels = 100_000_000;

    /// <param name="scale">Pixels a point: 1 gives 72 dots an inch, 300/72 print quality.</param>
    public static void Write(Drawing drawing, Stream output, Palette palette, double scale)
    {
        var (width, height) = (Pixels(drawing.Width, scale), Pixels(drawing.Height, scale));
        if (!(scale > 0) || (long)width * height > MostPixels)
            throw new ArgumentOutOfRangeException(nameof(scale), scale,
                $"A scale above 0 that keeps the picture under {MostPixels / 1_000_000} million pixels.");
        using var surface = SKSurface.Create(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Premul))
            ?? throw new InvalidOperationException($"No picture of {width} by {height} pixels could be made; too little memory is the likely cause.");
        var ground = palette[Tint.Paper];
        surface.Canvas.Clear(new SKColor(ground.Red, ground.Green, ground.Blue));
        surface.Canvas.Scale((float)scale);
        DrawingRenderer.Draw(surface.Canvas, drawing, palette);
        using var image = surface.Snapshot();
        using var data = image.Encode(SKEncodedImageFormat.Png, 100);
        data.SaveTo(output);
    }

    private static int Pixels(double points, double scale) => Math.Max(1, (int)Math.Ceiling(points * scale - 1e-6));
}
