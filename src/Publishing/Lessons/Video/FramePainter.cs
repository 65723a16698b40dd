using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using SkiaSharp;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>
/// Paints the play-along's frames: a map of the form along the top; what to hold now and what comes next, with the beats
/// until then; two bars of all parts with a marker where the music is. Nothing that must be read is under 26 pixels.
/// Still parts are painted once for each state (chord, beat, line) and copied.
/// </summary>
internal sealed class FramePainter : IDisposable
{
    public const int Width = 1920;
    public const int Height = 1080;
    private const float Edge = 56;

    private readonly LessonTimeline timeline;
    private readonly double length;
    private readonly ImmutableArray<PlayLine> lines;
    private readonly double lineScale;
    private readonly double lineTop;
    private readonly DiagramShelf diagrams;
    private readonly Harmonica? harp;
    private readonly SKSurface still;
    private readonly SKSurface frame;
    private readonly SKPaint paint = new() { IsAntialias = true };
    private State state = State.Never;

    public FramePainter(LessonTimeline timeline, double length)
    {
        (this.timeline, this.length) = (timeline, length);
        var song = timeline.Song;
        harp = song.Harp is { } reference ? Harmonica.Richter(reference.Value.Key) : null;
        lines = PlayLine.Of(timeline, [new ChordRow(song.Bars, 14), new TabRow(song.Tuning.Value), new StrumRow(), new CountRow(), new SungRow(), new HarpRow(9.2)], 540);
        var tallest = lines.Select(l => l.Drawing.Height).DefaultIfEmpty(1).Max();
        lineScale = Math.Min((Width - 2 * Edge) / 540, 400 / tallest);
        lineTop = Height - 40 - tallest * lineScale;
        diagrams = new(song, lineTop - 130);
        var info = new SKImageInfo(Width, Height, SKColorType.Rgba8888, SKAlphaType.Opaque);
        still = SKSurface.Create(info);
        frame = SKSurface.Create(info);
    }

    /// <summary>Which still picture a frame shows; frames of one state differ only in their moving parts.</summary>
    private readonly record struct State(int Chord, int Bar, int Beat, int Line, int Breath, int Second)
    {
        public static State Never { get; } = new(-9, -9, -9, -9, -9, -9);
    }

    /// <summary>Paints the frame at a time and gives its RGBA pixels, which stay valid until the next call.</summary>
    public ReadOnlySpan<byte> Paint(double time)
    {
        var now = StateAt(time);
        if (now != state)
        {
            state = now;
            PaintStill(time);
        }
        using (var picture = still.PeekPixels())
        using (var target = frame.PeekPixels())
            picture.GetPixelSpan().CopyTo(target.GetPixelSpan());
        PaintMoving(time);
        using var pixels = frame.PeekPixels();
        return pixels.GetPixelSpan();
    }

    public void Dispose()
    {
        diagrams.Dispose();
        still.Dispose();
        frame.Dispose();
        paint.Dispose();
    }

    private State StateAt(double time)
    {
        var bar = BarAt(time);
        var breath = LessonTimeline.IndexAt(timeline.Harp, time);
        if (breath >= 0 && time >= timeline.Harp[breath].End)
            breath = -1 - breath - 1;
        return new(LessonTimeline.IndexAt(timeline.Chords, time), bar, BeatAt(bar, time), LineAt(time), breath, time < timeline.Music.Start ? (int)(time * 4) : 0);
    }

    private int BarAt(double time)
    {
        var bar = -1;
        while (bar + 1 < timeline.Bars.Length && timeline.Bars[bar + 1].Start <= time)
            bar++;
        return bar;
    }

    private int BeatAt(int bar, double time)
    {
        if (bar < 0)
            return -1;
        var times = timeline.Bars[bar].BeatTimes;
        var beat = 0;
        while (beat + 1 < times.Length && times[beat + 1] <= time)
            beat++;
        return beat;
    }

    private int LineAt(double time)
    {
        var line = 0;
        while (line + 1 < lines.Length && lines[line + 1].Start <= time)
            line++;
        return line;
    }

    private void PaintStill(double time)
    {
        var canvas = still.Canvas;
        canvas.Clear(Skia(Tint.Paper));
        PaintForm(canvas);
        PaintHead(canvas);
        PaintNow(canvas);
        PaintNext(canvas, time);
        PaintBeats(canvas, time);
        PaintLine(canvas);
    }

    /// <summary>The song's sections as lengths of a ruler along the top edge.</summary>
    private void PaintForm(SKCanvas canvas)
    {
        foreach (var section in timeline.Sections)
            Rect(canvas, X(section.Start) + 1.5f, 0, X(section.End) - 1.5f, 12, Tint.Faint);
    }

    private void PaintHead(SKCanvas canvas)
    {
        var song = timeline.Song;
        var bar = Math.Max(0, state.Bar);
        var section = timeline.Bars.IsEmpty ? "" : song.Sections[timeline.Bars[bar].SectionIndex].Name;
        var sketch = new Sketch();
        sketch.Text(section, 0, 44, Face.Strong, 44);
        var place = timeline.Bars.IsEmpty ? "" : string.Create(CultureInfo.InvariantCulture, $"bar {timeline.Bars[bar].Bar.Number} of {timeline.Bars.Length}");
        sketch.Text(place, FontBook.Width(section, Face.Strong, 44) + 28, 44, Face.Text, 30, Tint.Quiet);
        sketch.Text(song.Title, Width - 2 * Edge, 24, Face.Strong, 30, Tint.Quiet, Align.Right);
        sketch.Text(Facts(song), Width - 2 * Edge, 60, Face.Text, 26, Tint.Quiet, Align.Right);
        Place(canvas, sketch.ToDrawing(Width - 2 * Edge, 70), Edge, 32, 1);
    }

    private static string Facts(Song song)
    {
        var tuning = string.Join(' ', song.Tuning.Value.Strings.Select(p => PitchText.Of(p.Name)));
        var capo = song.Capo.Value.Fret == 0 ? "no capo" : $"capo {song.Capo.Value.Fret}";
        var harmonica = song.Harp is { } h ? $"  ·  harp in {PitchText.Of(h.Value.Key)}" : "";
        return $"{tuning}  ·  {capo}{harmonica}  ·  {SongFacts.Reference(song.ReferencePitch.Value)}";
    }

    private void PaintNow(SKCanvas canvas)
    {
        if (state.Chord < 0)
            return;
        var now = diagrams.Large(timeline.Chords[state.Chord].Value);
        Place(canvas, now, Edge + 24, 122, 1);
    }

    private void PaintNext(SKCanvas canvas, double time)
    {
        if (state.Chord + 1 >= timeline.Chords.Length)
            return;
        var next = timeline.Chords[state.Chord + 1];
        var drawing = diagrams.Small(next.Value);
        var left = Width - Edge - 24 - Math.Max(drawing.Width, 330);
        var sketch = new Sketch();
        var beats = BeatsUntil(time, next.Start);
        var words = FontBook.Width("next in", Face.Text, 34);
        sketch.Text("next in", 0, 34, Face.Text, 34, Tint.Quiet);
        sketch.Text(beats.ToString(CultureInfo.InvariantCulture), words + 18, 38, Face.Strong, 62, beats <= 1 ? Tint.Draw : Tint.Ink);
        sketch.Text(beats == 1 ? "beat" : "beats", words + 34 + FontBook.Width(beats.ToString(CultureInfo.InvariantCulture), Face.Strong, 62), 34, Face.Text, 34, Tint.Quiet);
        Place(canvas, sketch.ToDrawing(400, 60), left, 132, 1);
        Place(canvas, drawing, left, 196, 1);
    }

    /// <summary>Felt beats that start from now until a time, the one sounding included.</summary>
    private int BeatsUntil(double time, double until)
    {
        var starts = timeline.Bars.SelectMany(b => b.BeatTimes.Take(b.BeatTimes.Length - 1));
        var inside = starts.Count(t => t > time + 1e-6 && t < until - 0.02);
        if (time >= timeline.Music.Start)
            return inside + 1;
        return inside + Math.Max(1, (int)Math.Ceiling((timeline.Music.Start - time) / FirstBeat));
    }

    private double FirstBeat => timeline.Bars.IsEmpty ? 1 : timeline.Bars[0].BeatTimes[1] - timeline.Bars[0].BeatTimes[0];

    /// <summary>The bar's beats as stepping stones; before the music they count it in.</summary>
    private void PaintBeats(SKCanvas canvas, double time)
    {
        if (timeline.Bars.IsEmpty)
            return;
        var bar = timeline.Bars[Math.Max(0, state.Bar)];
        var count = bar.Bar.Meter.BeatsPerBar;
        var lit = state.Bar >= 0 ? state.Beat : count - BeatsUntil(time, timeline.Music.Start);
        var over = state.Bar >= 0 && time >= timeline.Music.End;
        var (gap, radius) = (Math.Min(120.0, 520.0 / count), Math.Min(46.0, 200.0 / count));
        var sketch = new Sketch();
        for (var beat = 0; beat < count; beat++)
        {
            var x = radius + 4 + beat * gap;
            var on = beat == lit && !over;
            sketch.Ring(x, radius + 4, radius, 4, on ? Tint.Now : Tint.Line, on ? Tint.Now : null);
            sketch.Text((beat + 1).ToString(CultureInfo.InvariantCulture), x, radius + 4 + radius * 0.36, Face.Strong, radius, on ? Tint.OnColour : Tint.Quiet, Align.Centre);
        }
        var width = 2 * radius + 8 + (count - 1) * gap;
        Place(canvas, sketch.ToDrawing(width, 2 * radius + 8), 960 - width / 2, 150, 1);
        if (state.Bar < 0)
            PaintCentred(canvas, "count in", 290, 34);
        if (harp is not null)
            PaintHarp(canvas, harp);
    }

    private void PaintHarp(SKCanvas canvas, Harmonica instrument)
    {
        var sounding = state.Breath >= 0 ? timeline.Harp[state.Breath].Value : [];
        var drawing = HarpDiagram.Engrave(instrument, sounding, 52);
        Place(canvas, drawing, 960 - drawing.Width / 2, lineTop - drawing.Height - 60, 1);
        var words = sounding.IsEmpty ? "" : sounding[0].Breath == Breath.Blow ? "blow" : "draw";
        PaintCentred(canvas, words, lineTop - drawing.Height - 74, 34, sounding.IsEmpty ? Tint.Quiet : sounding[0].Breath == Breath.Blow ? Tint.Blow : Tint.Draw);
    }

    private void PaintCentred(SKCanvas canvas, string text, double baseline, double size, Tint tint = Tint.Quiet)
    {
        var sketch = new Sketch();
        sketch.Text(text, 300, size, Face.Strong, size, tint, Align.Centre);
        Place(canvas, sketch.ToDrawing(600, size * 1.3), 660, baseline - size, 1);
    }

    private void PaintLine(SKCanvas canvas)
    {
        if (!lines.IsEmpty)
            Place(canvas, lines[state.Line].Drawing, Edge, lineTop, lineScale);
    }

    private void PaintMoving(double time)
    {
        var canvas = frame.Canvas;
        foreach (var section in timeline.Sections.Where(s => s.Start < time))
            Rect(canvas, X(section.Start) + 1.5f, 0, X(Math.Min(section.End, time)) - 1.5f, 12, Tint.Hand);
        if (lines.IsEmpty || time < timeline.Music.Start || time > timeline.Music.End)
            return;
        var line = lines[state.Line];
        var x = (float)(Edge + line.MarkerAt(time) * lineScale);
        Rect(canvas, x - 3, (float)lineTop + 8, x + 3, (float)(lineTop + line.Drawing.Height * lineScale), Tint.Now, 0.85f);
    }

    private float X(double seconds) => (float)(seconds / Math.Max(length, 0.001) * Width);

    private void Rect(SKCanvas canvas, float left, float top, float right, float bottom, Tint tint, float opacity = 1)
    {
        paint.Color = Skia(tint).WithAlpha((byte)(255 * opacity));
        canvas.DrawRect(SKRect.Create(left, top, Math.Max(0, right - left), bottom - top), paint);
    }

    private static void Place(SKCanvas canvas, Drawing drawing, double left, double top, double scale)
    {
        canvas.Save();
        canvas.Translate((float)left, (float)top);
        canvas.Scale((float)scale);
        DrawingRenderer.Draw(canvas, drawing, Palette.Screen);
        canvas.Restore();
    }

    private static SKColor Skia(Tint tint)
    {
        var colour = Palette.Screen[tint];
        return new(colour.Red, colour.Green, colour.Blue);
    }
}
