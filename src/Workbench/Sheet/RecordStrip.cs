using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Workbench.Sheet;

/// <summary>
/// The record at the bars of a row: how loud it is, the notes that were heard, the fainter the less sure, in outline what the song claims to sound, and
/// the beats that were heard.
/// </summary>
public sealed class RecordStrip
{
    private const double LoudHeight = 11, Semitone = 1.6, BeatHeight = 6, Gap = 3;

    /// <summary>Decibels that the loudness's height stands for.</summary>
    private const double Range = 45;

    /// <summary>Of each recording that is open; what is decided of a song doesn't change it.</summary>
    private static readonly ConditionalWeakTable<NotePosteriorgram, double[]> Measured = [];

    private readonly Hearing hearing;
    private readonly IReadOnlyList<ClaimedSound> claims;
    private readonly double[] loud;
    private readonly int lowest;
    private readonly int highest;

    /// <param name="claims">What the song claims to sound, about the recording's own pitch.</param>
    public RecordStrip(Hearing hearing, IReadOnlyList<ClaimedSound> claims)
    {
        (this.hearing, this.claims) = (hearing, claims);
        var midi = hearing.Notes.Select(n => n.Midi).Order().ToArray();
        (lowest, highest) = midi.Length == 0 ? (40, 76) : (Math.Min(midi[midi.Length / 50], 45), Math.Max(midi[^(1 + midi.Length / 50)], 64));
        loud = Measured.GetValue(hearing.Evidence.Notes, Loudness);
    }

    public double Height => LoudHeight + Gap + (highest - lowest + 1) * Semitone + BeatHeight + 2;

    public Drawing Draw(RowAxis axis, double width)
    {
        var sketch = new Sketch();
        Loud(sketch, axis);
        Pitches(sketch, axis);
        Heard(sketch, axis);
        Claimed(sketch, axis);
        Beats(sketch, axis);
        return sketch.ToDrawing(width, Height);
    }

    private double Bottom => Height - BeatHeight - 2;

    private double Y(int midi) => Bottom - (Math.Clamp(midi, lowest, highest) - lowest + 1) * Semitone;

    private void Loud(Sketch sketch, RowAxis axis)
    {
        var hop = hearing.Evidence.Notes.Hop.Value;
        var (left, right) = (axis.Points[0].X, axis.Points[^1].X);
        if (loud.Length == 0)
            return;
        var path = new StringBuilder();
        path.Append(CultureInfo.InvariantCulture, $"M{left:0.#} {LoudHeight}");
        for (var time = axis.From; time <= axis.To; time += Math.Max(hop * 2, (axis.To - axis.From) / 260))
        {
            var frame = Math.Clamp((int)(time / hop), 0, loud.Length - 1);
            path.Append(CultureInfo.InvariantCulture, $"L{axis.X(time):0.#} {LoudHeight * (1 - loud[frame]):0.##}");
        }
        path.Append(CultureInfo.InvariantCulture, $"L{right:0.#} {LoudHeight}Z");
        sketch.Add(new PathMark(path.ToString(), new(Fill: Tint.Line, Opacity: 0.55)));
    }

    /// <summary>Every C, so that the eye finds its height.</summary>
    private void Pitches(Sketch sketch, RowAxis axis)
    {
        for (var midi = lowest; midi <= highest; midi++)
        {
            if (midi % 12 != 0)
                continue;
            var y = Y(midi) + Semitone / 2;
            sketch.Line(axis.Points[0].X, y, axis.Points[^1].X, y, 0.3, Tint.Line);
            sketch.Text(Pitch.FromMidi(midi).ToString(), axis.Points[0].X - 12, y + 1.8, Face.Narrow, 5.4, Tint.Quiet, Align.Right);
        }
    }

    private void Heard(Sketch sketch, RowAxis axis)
    {
        foreach (var note in hearing.Notes.Where(n => axis.Meets(n.Onset.Value, n.End.Value)))
        {
            var (left, right) = (axis.X(note.Onset.Value), axis.X(note.End.Value));
            sketch.Fill(Box.At(left, Y(note.Midi), Math.Max(1, right - left - 0.3), Semitone), Tint.Ink, opacity: 0.12 + 0.6 * note.Confidence);
            if (note.Onset.Value >= axis.From)
                sketch.Fill(Box.At(left, Y(note.Midi), 0.9, Semitone), Tint.Ink);
        }
    }

    private void Claimed(Sketch sketch, RowAxis axis)
    {
        foreach (var claim in claims.Where(c => axis.Meets(c.Start.Value, c.End.Value)))
        {
            var (left, right) = (axis.X(claim.Start.Value), axis.X(claim.End.Value));
            sketch.Add(new RectMark(Box.At(left, Y(claim.Midi) - 0.35, Math.Max(1.2, right - left - 0.6), Semitone + 0.7), 0.5,
                new(Stroke: Tint.Hand, Width: 0.45)));
        }
    }

    /// <summary>Heard beats, those that begin a bar longer; the less sure, the fainter.</summary>
    private void Beats(Sketch sketch, RowAxis axis)
    {
        sketch.Line(axis.Points[0].X, Bottom + 1, axis.Points[^1].X, Bottom + 1, 0.4);
        foreach (var beat in hearing.Beats.Where(b => b.Time.Value >= axis.From - 0.05 && b.Time.Value <= axis.To))
        {
            var (x, first) = (axis.X(beat.Time.Value), beat.PositionInBar == 1);
            sketch.Add(new LineMark(new(x, Bottom + 1), new(x, Bottom + (first ? BeatHeight + 1 : BeatHeight * 0.6)),
                new(Stroke: Tint.Heard, Width: first ? 1.3 : 0.8, Opacity: 0.35 + 0.65 * beat.Confidence)));
        }
    }

    /// <summary>The sum of all pitches' powers in each frame, over the last <see cref="Range"/> decibels, 0 to 1.</summary>
    private static double[] Loudness(NotePosteriorgram notes)
    {
        var decibels = new double[notes.Frames];
        for (var f = 0; f < notes.Frames; f++)
        {
            var power = 0.0;
            for (var p = 0; p < notes.Pitches; p++)
                power += Math.Pow(10, notes.Level[f, p] * 6);
            decibels[f] = 10 * Math.Log10(Math.Max(1, power));
        }
        var most = decibels.DefaultIfEmpty(0).Max();
        return [.. decibels.Select(d => Math.Clamp(1 - (most - d) / Range, 0, 1))];
    }
}
