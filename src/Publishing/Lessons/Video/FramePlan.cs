using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>A box that moves over the still picture.</summary>
internal readonly record struct MovingBox(Box Box, Tint Tint, double Opacity);

/// <summary>
/// What every frame is drawn from: a still picture for each moment (chord, beat, breath), and the form's ruler and the marker, which
/// move. Nothing that must be read is under 26 pixels. Several threads may ask at once.
/// </summary>
internal sealed class FramePlan
{
    private readonly LessonTimeline timeline;
    private readonly FrameHead head;
    private readonly Stage stage;
    private readonly SystemShelf lines;
    private readonly ScreenMoments moments;

    public FramePlan(LessonTimeline timeline, double length)
    {
        this.timeline = timeline;
        moments = new(timeline);
        head = new(timeline, length);
        lines = new(timeline);
        stage = new(timeline, lines.Top - 24);
    }

    public ScreenMoment MomentAt(double time) => moments.At(time);

    /// <summary>The still picture of a moment, as marks.</summary>
    public Drawing Still(ScreenMoment moment)
    {
        var sketch = new Sketch();
        head.Draw(sketch, moment);
        stage.Draw(sketch, moment);
        lines.Draw(sketch, moment);
        return sketch.ToDrawing(Screen.Width, Screen.Height);
    }

    public IEnumerable<MovingBox> Moving(ScreenMoment moment, double time)
    {
        foreach (var section in timeline.Sections.Where(s => s.Start < time))
            yield return new(head.Ruler(section, time), Tint.Hand, 1);
        if (moment is { Bar: >= 0, IsOver: false })
            yield return new(lines.MarkerAt(moment, time), Tint.Now, 0.85);
    }
}
