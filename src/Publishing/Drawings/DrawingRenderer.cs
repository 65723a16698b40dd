using System.Collections.Immutable;
using System.Text;
using SkiaSharp;

namespace Harkbook.Publishing.Drawings;

/// <summary>Draws a drawing on any Skia canvas: a picture, a page, a video frame.</summary>
public sealed class DrawingRenderer : IDisposable
{
    private readonly Palette palette;
    private readonly bool searchable;
    private readonly SKPaint paint = new() { IsAntialias = true };

    private DrawingRenderer(Palette palette, bool searchable) => (this.palette, this.searchable) = (palette, searchable);

    /// <summary>Draws with the drawing's corner at the canvas's origin, one unit a point; move and scale the canvas first to place it.</summary>
    public static void Draw(SKCanvas canvas, Drawing drawing, Palette palette)
    {
        using var renderer = new DrawingRenderer(palette, searchable: false);
        renderer.Draw(canvas, drawing.Marks);
    }

    /// <summary>Records a drawing once, to be drawn many times (video frames) at the price of a replay.</summary>
    public static SKPicture Record(Drawing drawing, Palette palette)
    {
        using var recorder = new SKPictureRecorder();
        Draw(recorder.BeginRecording(new SKRect(0, 0, (float)drawing.Width, (float)drawing.Height)), drawing, palette);
        return recorder.EndRecording();
    }

    /// <summary>Draws so that a PDF's text can be found and copied, and its links followed.</summary>
    internal static void DrawSearchable(SKCanvas canvas, Drawing drawing, Palette palette)
    {
        using var renderer = new DrawingRenderer(palette, searchable: true);
        renderer.Draw(canvas, drawing.Marks);
    }

    public void Dispose() => paint.Dispose();

    private void Draw(SKCanvas canvas, ImmutableArray<Mark> marks)
    {
        foreach (var mark in marks)
            Draw(canvas, mark);
    }

    private void Draw(SKCanvas canvas, Mark mark)
    {
        switch (mark)
        {
            case LineMark line:
                Stroked(line.Pen, p => canvas.DrawLine(Skia(line.From), Skia(line.To), p));
                break;
            case RectMark rect:
                Both(rect.Pen, p => canvas.DrawRoundRect(Skia(rect.Box), (float)rect.Corner, (float)rect.Corner, p));
                break;
            case CircleMark circle:
                Both(circle.Pen, p => canvas.DrawCircle(Skia(circle.Centre), (float)circle.Radius, p));
                break;
            case PathMark path:
                using (var outline = SKPath.ParseSvgPathData(path.Data))
                    Both(path.Pen, p => canvas.DrawPath(outline, p));
                break;
            case TextMark text:
                Draw(canvas, text);
                break;
            case GroupMark group:
                Draw(canvas, group);
                break;
        }
    }

    private void Draw(SKCanvas canvas, GroupMark group)
    {
        canvas.Save();
        canvas.Translate((float)group.At.X, (float)group.At.Y);
        canvas.Scale((float)group.Scale);
        Draw(canvas, group.Marks);
        canvas.Restore();
        if (searchable && group.Link is { } link)
            canvas.DrawUrlAnnotation(Skia(group.Bounds), link)?.Dispose();
    }

    private void Draw(SKCanvas canvas, TextMark text)
    {
        Use(text.Tint, 1);
        var shaped = FontBook.Shape(text.Text, text.Face);
        var (x, y) = ((float)text.At.X, (float)text.At.Y);
        if (!searchable || text.Says is null)
        {
            using var blob = Blob(shaped, text.Size);
            if (blob is not null)
                canvas.DrawText(blob, x, y, paint);
            return;
        }
        using var outline = shaped.Outline(text.Size, x, y, skipped: text.Says.Length > 0 ? 1 : 0);
        canvas.DrawPath(outline, paint);
        if (text.Says.Length > 0)
            DrawForAll(canvas, shaped.Runs[0], text);
    }

    /// <summary>One glyph that stands, for readers of a PDF, for the whole of what the mark says; the other glyphs are outlines.</summary>
    private void DrawForAll(SKCanvas canvas, GlyphRun run, TextMark text)
    {
        var says = Encoding.UTF8.GetBytes(text.Says!);
        using var font = FontBook.Font(run.Face, text.Size * run.Size);
        using var builder = new SKTextBlobBuilder();
        var buffer = builder.AllocateRawPositionedTextRun(font, 1, says.Length);
        buffer.Glyphs[0] = run.Glyphs[0];
        buffer.Positions[0] = Scaled(run.Places[0], text.Size);
        buffer.Clusters[0] = 0;
        says.CopyTo(buffer.Text);
        using var blob = builder.Build();
        canvas.DrawText(blob, (float)text.At.X, (float)text.At.Y, paint);
    }

    private static SKTextBlob? Blob(ShapedText shaped, double size)
    {
        using var builder = new SKTextBlobBuilder();
        foreach (var run in shaped.Runs)
        {
            using var font = FontBook.Font(run.Face, size * run.Size);
            var utf8 = Encoding.UTF8.GetBytes(run.Text);
            var buffer = builder.AllocateRawPositionedTextRun(font, run.Glyphs.Length, utf8.Length);
            run.Glyphs.CopyTo(buffer.Glyphs);
            run.Clusters.CopyTo(buffer.Clusters);
            utf8.CopyTo(buffer.Text);
            for (var i = 0; i < run.Places.Length; i++)
                buffer.Positions[i] = Scaled(run.Places[i], size);
        }
        return builder.Build();
    }

    private void Both(Pen pen, Action<SKPaint> draw)
    {
        if (pen.Fill is { } fill)
        {
            Use(fill, pen.Opacity);
            draw(paint);
        }
        Stroked(pen, draw);
    }

    private void Stroked(Pen pen, Action<SKPaint> draw)
    {
        if (pen.Stroke is not { } tint)
            return;
        Use(tint, pen.Opacity);
        paint.Style = SKPaintStyle.Stroke;
        paint.StrokeWidth = (float)pen.Width;
        paint.StrokeCap = pen.RoundEnds ? SKStrokeCap.Round : SKStrokeCap.Butt;
        paint.StrokeJoin = SKStrokeJoin.Round;
        using var dash = pen.Dash.IsDefaultOrEmpty ? null : SKPathEffect.CreateDash([.. pen.Dash.Select(d => (float)d)], 0);
        paint.PathEffect = dash;
        draw(paint);
        paint.PathEffect = null;
    }

    private void Use(Tint tint, double opacity)
    {
        var colour = palette[tint];
        paint.Color = new SKColor(colour.Red, colour.Green, colour.Blue, (byte)Math.Round(255 * opacity));
        paint.Style = SKPaintStyle.Fill;
    }

    private static SKPoint Scaled(SKPoint place, double size) => new(place.X * (float)size, place.Y * (float)size);

    private static SKPoint Skia(Point point) => new((float)point.X, (float)point.Y);

    private static SKRect Skia(Box box) => new((float)box.Left, (float)box.Top, (float)box.Right, (float)box.Bottom);
}
