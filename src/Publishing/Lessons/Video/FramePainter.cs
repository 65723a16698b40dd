using Harkbook.Publishing.Drawings;
using SkiaSharp;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>Paints the play-along's frames. What stands still is painted once; from frame to frame only what moves is painted anew.</summary>
internal sealed class FramePainter : IDisposable
{
    private readonly FramePlan plan;
    private readonly SKSurface still;
    private readonly SKSurface frame;
    private readonly PlanarPicture planes = new(Screen.Width, Screen.Height);
    private readonly SKPaint paint = new() { IsAntialias = true };
    private readonly List<MovingBox> shown = [];
    private ScreenMoment? painted;

    public FramePainter(FramePlan plan)
    {
        this.plan = plan;
        var info = new SKImageInfo(Screen.Width, Screen.Height, SKColorType.Rgba8888, SKAlphaType.Opaque);
        still = SKSurface.Create(info);
        frame = SKSurface.Create(info);
    }

    /// <summary>The painted frame as H.264 takes it; valid until the next call of <see cref="Paint"/>.</summary>
    public ReadOnlyMemory<byte> Planes => planes.Bytes;

    /// <summary>Paints the frame at a time and gives its RGBA pixels, which stay valid until the next call.</summary>
    public ReadOnlySpan<byte> Paint(double time)
    {
        var moment = plan.MomentAt(time);
        var moving = plan.Moving(moment, time).ToArray();
        if (moment != painted)
            PaintStill(moment);
        else if (moving.AsSpan().SequenceEqual([.. shown]))
            return Pixels(frame);
        else
            shown.ForEach(m => CopyFromStill(m.Box));
        foreach (var box in moving)
            Fill(box);
        foreach (var box in shown.Concat(moving))
            TakeIn(box.Box);
        shown.Clear();
        shown.AddRange(moving);
        return Pixels(frame);
    }

    public void Dispose()
    {
        still.Dispose();
        frame.Dispose();
        paint.Dispose();
    }

    private void PaintStill(ScreenMoment moment)
    {
        painted = moment;
        shown.Clear();
        still.Canvas.Clear(Skia(Tint.Paper));
        DrawingRenderer.Draw(still.Canvas, plan.Still(moment), Palette.Screen);
        Pixels(still).CopyTo(Writable(frame));
        planes.Take(Pixels(still), 0, 0, Screen.Width, Screen.Height);
    }

    private void CopyFromStill(Box box)
    {
        var (left, top, right, bottom) = Around(box);
        var from = Pixels(still);
        var to = Writable(frame);
        for (var y = top; y < bottom; y++)
        {
            var row = (y * Screen.Width + left) * 4;
            from.Slice(row, (right - left) * 4).CopyTo(to[row..]);
        }
    }

    private void TakeIn(Box box)
    {
        var (left, top, right, bottom) = Around(box);
        planes.Take(Pixels(frame), left, top, right, bottom);
    }

    private void Fill(MovingBox moving)
    {
        var box = moving.Box;
        paint.Color = Skia(moving.Tint).WithAlpha((byte)(255 * moving.Opacity));
        frame.Canvas.DrawRect(SKRect.Create((float)box.Left, (float)box.Top, (float)box.Width, (float)box.Height), paint);
    }

    /// <summary>All pixels that a box may touch, in whole squares of two by two.</summary>
    private static (int Left, int Top, int Right, int Bottom) Around(Box box) =>
        (Even(box.Left - 2, Screen.Width), Even(box.Top - 2, Screen.Height), Even(box.Right + 3, Screen.Width), Even(box.Bottom + 3, Screen.Height));

    private static int Even(double place, int most) => Math.Clamp((int)Math.Floor(place / 2) * 2, 0, most);

    private static Span<byte> Writable(SKSurface surface)
    {
        using var pixels = surface.PeekPixels();
        return pixels.GetPixelSpan();
    }

    private static ReadOnlySpan<byte> Pixels(SKSurface surface) => Writable(surface);

    private static SKColor Skia(Tint tint)
    {
        var colour = Palette.Screen[tint];
        return new(colour.Red, colour.Green, colour.Blue);
    }
}
