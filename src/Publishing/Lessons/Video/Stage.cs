using System.Globalization;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Diagrams;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>The upper half of a frame: what to hold now on the left, the next on the right, the beats and the harmonica between.</summary>
internal sealed class Stage
{
    private const double TagSize = 34;
    private const double NowTop = Screen.StageTop + 20;
    private const double NextTop = Screen.StageTop + 62;
    private const double MiddleRoom = 700;

    private readonly LessonTimeline timeline;
    private readonly DiagramShelf diagrams;
    private readonly double bottom;
    private readonly (Harmonica Harp, double Cell)? harp;

    /// <param name="bottom">Where the stage ends, in pixels from above.</param>
    public Stage(LessonTimeline timeline, double bottom)
    {
        (this.timeline, this.bottom) = (timeline, bottom);
        diagrams = new(timeline.Song, bottom - NowTop - 10, bottom - NextTop - 10, Screen.ColumnWidth - 60);
        if (timeline.Song.Harp is { } reference)
        {
            var instrument = reference.Value.ToHarmonica();
            harp = (instrument, Math.Min(62, MiddleRoom / (instrument.Holes + 1.1)));
        }
    }

    public void Draw(Sketch sketch, ScreenMoment moment)
    {
        DrawLeft(sketch, moment);
        DrawMiddle(sketch, moment);
        DrawRight(sketch, moment);
    }

    private void DrawLeft(Sketch sketch, ScreenMoment moment)
    {
        sketch.Fill(Box.At(Screen.Edge, Screen.StageTop + 6, Screen.ColumnWidth, bottom - Screen.StageTop - 6), Tint.Faint, 18);
        // After the end a player may want to check the tuning again, or pause the picture on it.
        if (moment.BeatsToStart > 0 || moment.IsOver)
        {
            TuningCard.Draw(sketch, timeline.Song, bottom);
            return;
        }
        if (moment.Holds)
            Diagram(sketch, diagrams.Now(timeline.Chords[moment.Chord].Value), Screen.LeftMiddle, NowTop);
        else
            Centred(sketch, timeline.IsSilentAfter(moment.Chord) ? "silence" : "no chord", Screen.LeftMiddle, Screen.StageTop + 60, TagSize, Tint.Quiet);
    }

    private void DrawRight(Sketch sketch, ScreenMoment moment)
    {
        if (moment.Chord + 1 >= timeline.Chords.Length)
        {
            var words = moment.IsOver || timeline.Chords.IsEmpty ? "" : "the last chord";
            Centred(sketch, words, Screen.RightMiddle, Screen.StageTop + 48, TagSize, Tint.Quiet);
            return;
        }
        DrawUntil(sketch, moment.BeatsToNext);
        Diagram(sketch, diagrams.Next(timeline.Chords[moment.Chord + 1].Value), Screen.RightMiddle, NextTop);
    }

    private static void DrawUntil(Sketch sketch, int beats)
    {
        var (number, unit) = (beats.ToString(CultureInfo.InvariantCulture), beats == 1 ? "beat" : "beats");
        const double NumberSize = 62;
        var baseline = Screen.StageTop + 48;
        var half = FontBook.Width(number, Face.Strong, NumberSize) / 2 + 16;
        sketch.Text("next in", Screen.RightMiddle - half, baseline, Face.Text, TagSize, Tint.Quiet, Align.Right);
        sketch.Text(number, Screen.RightMiddle, baseline, Face.Strong, NumberSize, beats == 1 ? Tint.Now : Tint.Ink, Align.Centre);
        sketch.Text(unit, Screen.RightMiddle + half, baseline, Face.Text, TagSize, Tint.Quiet);
    }

    private void DrawMiddle(Sketch sketch, ScreenMoment moment)
    {
        if (timeline.Bars.IsEmpty)
            return;
        var harpTop = bottom;
        if (harp is { } h)
        {
            var drawing = HarpDiagram.Engrave(h.Harp, moment.Breath < 0 ? [] : timeline.Harp[moment.Breath].Value, h.Cell);
            harpTop = bottom - drawing.Height;
            sketch.Add(drawing.Placed(Screen.Middle - drawing.Width / 2, harpTop));
        }
        var count = timeline.Bars[Math.Max(0, moment.Bar)].Count;
        var end = BeatRings.Draw(sketch, count, moment, Screen.StageTop + 6, harpTop - 24 - TagSize * 1.25);
        var (words, tint) = Caption(moment);
        Centred(sketch, words, Screen.Middle, harp is null ? end + TagSize * 1.6 : harpTop - 24, TagSize, tint);
    }

    private (string Words, Tint Tint) Caption(ScreenMoment moment)
    {
        if (moment.IsOver)
            return ("the end", Tint.Quiet);
        if (moment.BeatsToStart > timeline.Bars[0].Count)
            return ($"the music starts in {moment.SecondsToStart} {(moment.SecondsToStart == 1 ? "second" : "seconds")}", Tint.Quiet);
        if (moment.BeatsToStart > 0)
            return ("count in", Tint.Quiet);
        return moment.Breath < 0 ? ("", Tint.Quiet)
            : timeline.Harp[moment.Breath].Value[0].Breath == Breath.Blow ? ("blow", Tint.Blow) : ("draw", Tint.Draw);
    }

    private static void Diagram(Sketch sketch, Drawing drawing, double middle, double top) =>
        sketch.Add(drawing.Placed(middle - drawing.Width / 2, top));

    private static void Centred(Sketch sketch, string text, double middle, double baseline, double size, Tint tint) =>
        sketch.Text(text, middle, baseline, Face.Strong, size, tint, Align.Centre);
}
