using Harkbook.Jobs;
using System.Collections.Immutable;
using System.Globalization;
using Harkbook.App.Reports;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;
using Harkbook.Units;

namespace Harkbook.App.Doubts;

/// <summary>
/// Draws what is claimed over what was heard: heard pitches as grey cells, the darker the surer, claimed notes as outlines, claimed bar lines and beats as
/// lines from top to bottom, heard beats as ticks below, and each doubtful claim as a number, told in words underneath.
/// </summary>
internal sealed class DoubtDrawing
{
    private const double Left = 40, Width = 760, Row = 6.5, Top = 62;

    private readonly Hearing hearing;
    private readonly DoubtPicture picture;
    private readonly ImmutableArray<ClaimedSound> claimed;
    private readonly Sketch sketch = new();
    private readonly int lowest;
    private readonly int highest;

    private DoubtDrawing(Hearing hearing, DoubtPicture picture, IEnumerable<ClaimedSound> claims)
    {
        (this.hearing, this.picture) = (hearing, picture);
        claimed = [.. claims.Where(c => c.End > picture.From && c.Start < picture.To)];
        var heard = hearing.Notes.Where(n => n.End > picture.From && n.Onset < picture.To).Select(n => n.Midi);
        var pitches = claimed.Select(c => c.Midi).Concat(heard).DefaultIfEmpty(60).ToArray();
        (lowest, highest) = (pitches.Min() - 2, pitches.Max() + 2);
    }

    private double Bottom => Top + (highest - lowest + 1) * Row;

    public static Drawing Draw(Hearing hearing, DoubtPicture picture, IEnumerable<ClaimedSound> claims, ImmutableArray<Finding> all) =>
        new DoubtDrawing(hearing, picture, claims).Draw(all);

    private Drawing Draw(ImmutableArray<Finding> all)
    {
        PosteriorStrip.Draw(sketch, hearing.Evidence.Notes, picture.From, picture.To, lowest, highest, X, Y, Row);
        Pitches();
        Lines();
        Heard();
        Chords(all);
        foreach (var claim in claimed)
            Outline(claim);
        Numbers();
        var bottom = Words();
        return sketch.ToDrawing(Left + Width + 16, bottom, $"doubtful claims at {HearingReport.Clock(picture.From)}");
    }

    private double X(Seconds time) => Left + (time - picture.From).Value / (picture.To - picture.From).Value * Width;

    private double Y(int midi) => Bottom - (midi - lowest + 1) * Row;

    /// <summary>The pitches that are claimed, and every C.</summary>
    private void Pitches()
    {
        var last = double.MaxValue;
        foreach (var midi in claimed.Select(c => c.Midi).Concat(Enumerable.Range(lowest, highest - lowest + 1).Where(m => m % 12 == 0)).Distinct().Order())
        {
            if (last - Y(midi) < Row * 0.95)
                continue;
            sketch.Text(Pitch.FromMidi(midi).ToString(), Left - 5, Y(midi) + Row - 1, Face.Narrow, 6.5, Tint.Quiet, Align.Right);
            last = Y(midi);
        }
        sketch.Line(Left, Bottom, Left + Width, Bottom, 0.6);
    }

    private void Lines()
    {
        foreach (var beat in picture.Beats)
            sketch.Line(X(beat), Top, X(beat), Bottom, 0.4, Tint.Line);
        foreach (var (at, bar) in picture.Lines.Where(l => l.At >= picture.From && l.At <= picture.To))
        {
            sketch.Line(X(at), Top - 14, X(at), Bottom, 1.1, Tint.Ink);
            if (bar is { } number)
                sketch.Text(number.ToString(CultureInfo.InvariantCulture), X(at) + 3, Top - 17, Face.Digits, 9, Tint.Ink);
        }
    }

    /// <summary>Heard beats, those that begin a bar longer; and the seconds.</summary>
    private void Heard()
    {
        foreach (var beat in hearing.Beats.Where(b => b.Time >= picture.From && b.Time <= picture.To))
            sketch.Line(X(beat.Time), Bottom, X(beat.Time), Bottom + (beat.PositionInBar == 1 ? 9 : 5), beat.PositionInBar == 1 ? 1.6 : 1, Tint.Heard);
        for (var second = Math.Ceiling(picture.From.Value); second <= picture.To.Value; second++)
            sketch.Text(HearingReport.Clock(Seconds.FromSeconds(second))[..^3], X(Seconds.FromSeconds(second)), Bottom + 18, Face.Digits, 7,
                Tint.Quiet, Align.Centre);
    }

    /// <summary>Claimed chords above the strip, and above them what is heard where that differs.</summary>
    private void Chords(ImmutableArray<Finding> all)
    {
        foreach (var chord in all.Where(f => f.Kind == ClaimKind.Chord && f.Where!.Time >= picture.From && f.Where.Time < picture.To))
            sketch.Text(chord.Claim, X(chord.Where!.Time) + 3, Top - 5, Face.Strong, 9, chord.Verdict == Verdict.Supported ? Tint.Hand : Tint.Draw);
    }

    private void Outline(ClaimedSound claim)
    {
        var (left, right) = (Math.Max(Left, X(claim.Start)), Math.Min(Left + Width, X(claim.End)));
        var (tint, width) = IsDoubted(claim) ? (Tint.Draw, 1.6) : (Tint.Hand, 0.9);
        sketch.Add(new RectMark(new(left, Y(claim.Midi) + 0.4, Math.Max(left + 2, right - 1), Y(claim.Midi) + Row - 0.4), 1.2,
            new(Stroke: tint, Width: width)));
        sketch.Fill(Box.At(left, Y(claim.Midi) + 0.4, 1.8, Row - 0.8), tint);
    }

    /// <summary>Whether a doubt names this very note.</summary>
    private bool IsDoubted(ClaimedSound claim) => picture.Doubts.Any(d =>
        d.Kind is not (ClaimKind.Silence or ClaimKind.StillHand) && Math.Abs((d.Where!.Time - claim.Start).Value) < 0.002
        && new[] { -3, 2 }.Any(centre => d.Claim.Split(' ', ',').Contains(Pitch.FromMidi(claim.Midi, centre).ToString())));

    private void Numbers()
    {
        for (var i = 0; i < picture.Doubts.Length; i++)
        {
            var place = picture.Doubts[i].Where!.Time;
            var crowd = picture.Doubts.Take(i).Count(f => Math.Abs(X(f.Where!.Time) - X(place)) < 11);
            var (x, y) = (X(place), Top - 32 - 11 * (crowd % 3));
            sketch.Line(x, y + 5, x, Bottom, 0.7, Tint.Draw);
            sketch.Dot(x, y, 5.2, Tint.Draw);
            sketch.Text((i + 1).ToString(CultureInfo.InvariantCulture), x, y + 2.6, Face.Digits, 7.5, Tint.OnColour, Align.Centre);
        }
    }

    /// <summary>The doubtful claims in words; where they end.</summary>
    private double Words()
    {
        var y = Bottom + 36;
        for (var i = 0; i < picture.Doubts.Length; i++, y += 13)
        {
            sketch.Text((i + 1).ToString(CultureInfo.InvariantCulture), Left + 12, y, Face.Digits, 8.5, Tint.Draw, Align.Right);
            sketch.Text(Fitting(CheckReport.Line(picture.Doubts[i])), Left + 20, y, Face.Text, 8.5);
        }
        return Legend(y + 6);
    }

    private double Legend(double y)
    {
        sketch.Fill(Box.At(Left, y - 6, 14, Row), Tint.Ink, opacity: 0.3);
        var x = Left + 18 + sketch.Text("heard, the darker the surer", Left + 18, y, Face.Text, 7.5, Tint.Quiet) + 14;
        sketch.Add(new RectMark(Box.At(x, y - 6, 14, Row), 1.2, new(Stroke: Tint.Hand, Width: 0.9)));
        x += 18 + sketch.Text("claimed", x + 18, y, Face.Text, 7.5, Tint.Quiet) + 14;
        sketch.Add(new RectMark(Box.At(x, y - 6, 14, Row), 1.2, new(Stroke: Tint.Draw, Width: 1.6)));
        x += 18 + sketch.Text("claimed and doubted", x + 18, y, Face.Text, 7.5, Tint.Quiet) + 14;
        sketch.Line(x + 3, y - 7, x + 3, y, 1.1, Tint.Ink);
        x += 9 + sketch.Text("claimed bar line", x + 9, y, Face.Text, 7.5, Tint.Quiet) + 14;
        sketch.Line(x + 3, y - 6, x + 3, y - 1, 1, Tint.Heard);
        sketch.Line(x + 7, y - 7, x + 7, y + 1, 1.6, Tint.Heard);
        sketch.Text("heard beat, heard bar", x + 12, y, Face.Text, 7.5, Tint.Quiet);
        return y + 10;
    }

    private static string Fitting(string text)
    {
        var words = string.Join(' ', text.Split(' ', StringSplitOptions.RemoveEmptyEntries));
        while (words.Length > 20 && FontBook.Width(words, Face.Text, 8.5) > Width - 20)
            words = words[..^4].TrimEnd() + "…";
        return words;
    }
}
