using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>
/// Voice and guitar as two lines on one count: full and joined by an upright where both start together, hollow where one starts
/// alone; round for the voice, square for the guitar.
/// </summary>
internal sealed class TwoPartsRow : BarRow
{
    private const double Voice = 5;
    private const double Guitar = 20;
    private const double Size = 2.7;

    public override string Label => "";

    public override double Height => 27;

    public override bool Has(Bar bar) => true;

    public override void DrawMargin(Sketch sketch, double right, double top, double least = 6.6)
    {
        sketch.Text("voice", right - 5, top + Voice + 2, Face.Narrow, 6.6, Tint.Quiet, Align.Right);
        sketch.Text("guitar", right - 5, top + Guitar + 2, Face.Narrow, 6.6, Tint.Quiet, Align.Right);
    }

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        for (var beat = 0; beat < slot.Bar.Meter.BeatsPerBar; beat++)
            sketch.Line(slot.X(Beats.Whole(beat)), top, slot.X(Beats.Whole(beat)), top + Height - 2, 0.5, Tint.Faint);
        foreach (var y in new[] { Voice, Guitar })
            sketch.Line(slot.Left, top + y, slot.Right, top + y, 0.6);
        foreach (var meeting in TwoParts.Of(slot.Bar).Meetings)
            DrawMeeting(sketch, meeting, slot.X(meeting.At), top);
    }

    private static void DrawMeeting(Sketch sketch, Meeting meeting, double x, double top)
    {
        if (meeting.IsTogether)
            sketch.Line(x, top + Voice, x, top + Guitar, 1.5, Tint.Ink);
        if (meeting.VoiceStarts)
            sketch.Ring(x, top + Voice, Size, 1.1, Tint.Voice, meeting.IsTogether ? Tint.Voice : Tint.Paper);
        if (meeting.GuitarStrikes)
            sketch.Add(new RectMark(Box.At(x - Size + 0.3, top + Guitar - Size + 0.3, 2 * Size - 0.6, 2 * Size - 0.6), 0,
                new(meeting.IsTogether ? Tint.Ink : Tint.Paper, Tint.Ink, 1.1)));
    }
}
