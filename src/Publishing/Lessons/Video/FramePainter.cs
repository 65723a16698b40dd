using Harkbook.Publishing.Drawings;
using SkiaSharp;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>
/// Paints the play-along's frames. What stands still is painted once for each moment (chord, beat, breath) and copied;
/// the form's ruler and the marker move. Nothing that must be read is under 26 pixels.
/// </summary>
internal sealed class FramePainter : IDisposable
{
    private readonly LessonTimeline timeline;
    private readonly FrameHead head;
    private readonly Stage stage;
    private readonly LineShelf lines;
    private readonly Moments moments;
    private readonly SKSurface still;
    private readonly SKSurface frame;
    private readonly SKPaint paint = new() { IsAntialias = true };
    private Moment? painted;

    /// <param name="length">The sound's length in seconds.</param>
    public FramePainter(LessonTimeline timeline, double length)
    {
        this.timeline = timeline;
        moments = new(timeline);
        head = new(timeline, length);
        lines = new(timeline);
        stage = new(timeline, lines.Top - 24);
        var info = new SKImageInfo(Screen.Width, Screen.Height, SKColorType.Rgba8888, SKAlphaType.Opaque);
        still = SKSurface.Create(info);
        frame = SKSurface.Create(info);
    }

    /// <summary>Paints the frame at a time and gives its RGBA pixels, which stay valid until the next call.</summary>
    public ReadOnlySpan<byte> Paint(double time)
    {
        var moment = moments.At(time);
        if (moment != painted)
        {
            painted = moment;
            still.Canvas.Clear(Skia(Tint.Paper));
            DrawingRenderer.Draw(still.Canvas, Still(moment), Palette.Screen);
        }
        using (var picture = still.PeekPixels())
        using (var target = frame.PeekPixels())
            picture.GetPixelSpan().CopyTo(target.GetPixelSpan());
        PaintMoving(moment, time);
        using var pixels = frame.PeekPixels();
        return pixels.GetPixelSpan();
    }

    /// <summary>The still picture at a time, as marks.</summary>
    public Drawing Still(double time) => Still(moments.At(time));

    public void Dispose()
    {
        still.Dispose();
        frame.Dispose();
        paint.Dispose();
    }

    private Drawing Still(Moment moment)
    {
        var sketch = new Sketch();
        head.Draw(sketch, moment);
        stage.Draw(sketch, moment);
        lines.Draw(sketch, moment);
        return sketch.ToDrawing(Screen.Width, Screen.Height);
    }

    private void PaintMoving(Moment moment, double time)
    {
        foreach (var section in timeline.Sections)
        {
            if (section.Start < time)
                Fill(head.Ruler(section, time), Tint.Hand, 1);
        }
        if (moment is { Bar: >= 0, IsOver: false })
            Fill(lines.MarkerAt(moment, time), Tint.Now, 0.85);
    }

    private void Fill(Box box, Tint tint, double opacity)
    {
        paint.Color = Skia(tint).WithAlpha((byte)(255 * opacity));
        frame.Canvas.DrawRect(SKRect.Create((float)box.Left, (float)box.Top, (float)box.Width, (float)box.Height), paint);
    }

    private static SKColor Skia(Tint tint)
    {
        var colour = Palette.Screen[tint];
        return new(colour.Red, colour.Green, colour.Blue);
    }
}
