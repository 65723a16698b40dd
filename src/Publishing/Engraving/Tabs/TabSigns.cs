using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;

namespace Harkbook.Publishing.Engraving.Tabs;

/// <summary>
/// What stands over the strings (common practice): an arrow to how many whole steps a string is bent, a wavy line for vibrato, and
/// "let ring" with a broken line for as long as it holds.
/// </summary>
internal sealed class TabSigns
{
    private const double WaveWidth = 7;
    private readonly double gap, ringHeight, bendHeight;

    public TabSigns(ImmutableArray<Bar> bars, double gap)
    {
        this.gap = gap;
        var notes = bars.SelectMany(b => b.Picked).Select(p => p.Value).ToArray();
        ringHeight = notes.Any(n => n.LetsRing) ? gap : 0;
        bendHeight = notes.Any(n => !n.Bend.IsNone || n.HasVibrato) ? gap * 1.45 : 0;
    }

    public double Height => ringHeight + bendHeight;

    private double Size => gap * 0.86;

    private double StepSize => gap * 1.05;

    /// <summary>A bend's lettering, or the vibrato of one moment, where it wishes to stand.</summary>
    private sealed record Sign(string Text, double Left, double Width, double End, TabPlace[] Bent);

    public bool Fit(BarSlot slot, TabPlace[][] places) => Lay(slot, Signs(slot, places)) is { Scale: 1, Miss: <= 3 };

    /// <param name="y">Each string's height.</param>
    public void Draw(Sketch sketch, BarSlot slot, TabPlace[][] places, double top, Func<int, double> y)
    {
        var signs = Signs(slot, places);
        var spread = Lay(slot, signs);
        var lane = top + ringHeight;
        for (var i = 0; i < signs.Length; i++)
        {
            var (left, width) = (spread.Lefts[i], signs[i].Width * spread.Scale);
            if (signs[i].Bent.Length == 0)
                Wave(sketch, left, Math.Max(left + width, Math.Min(signs[i].End, i + 1 < signs.Length ? spread.Lefts[i + 1] - 3 : slot.InnerRight)),
                    lane + bendHeight * 0.5);
            else
                DrawBend(sketch, slot, places, signs[i], left + width / 2, lane, y);
            if (signs[i].Bent.Length > 0)
                sketch.Text(signs[i].Text, left, lane + gap * 0.78, Face.NarrowStrong, StepSize * spread.Scale, Tint.Ink);
        }
        DrawRinging(sketch, slot, places, top + gap * 0.62);
    }

    private Sign[] Signs(BarSlot slot, TabPlace[][] places)
    {
        var signs = new List<Sign>();
        foreach (var moment in places.SelectMany(s => s).GroupBy(p => p.Cell.Claim.Start).OrderBy(g => g.Key))
        {
            TabPlace[] bent = [.. moment.Where(p => !p.Note.Bend.IsNone)];
            if (bent.Length > 0)
            {
                var text = string.Join(' ', bent.Select(p => p.Note.Bend.InSteps()).Distinct());
                var width = FontBook.Width(text, Face.NarrowStrong, StepSize);
                signs.Add(new(text, Shaft([.. moment]) - width / 2, width, 0, bent));
            }
            if (moment.FirstOrDefault(p => p.Note.HasVibrato) is { } wavering)
                signs.Add(new("", bent.Length > 0 ? signs[^1].Left + signs[^1].Width + 2
                    : wavering.MainLeft, WaveWidth, slot.End(wavering.Cell.Claim) - 3, []));
        }
        return [.. signs];
    }

    /// <summary>Where a bend's arrow rises: clear of the numbers of its moment, straight over the top one where that is bent before.</summary>
    private double Shaft(TabPlace[] moment)
    {
        var top = moment.MaxBy(p => p.Note.StringIndex)!;
        return top.Note.Bend.IsBefore ? top.MainMiddle : moment.Max(p => p.MainRight) + gap * 0.3;
    }

    private static Spread Lay(BarSlot slot, Sign[] signs) =>
        Spread.Of([.. signs.Select(s => s.Left)], [.. signs.Select(s => s.Width)], slot.InnerLeft, slot.InnerRight, 2);

    /// <summary>From each bent note to its lettering: a curve, straight where it is bent before; back down where it is let back.</summary>
    private void DrawBend(Sketch sketch, BarSlot slot, TabPlace[][] places, Sign sign, double x, double lane, Func<int, double> y)
    {
        var tip = lane + gap * 0.9;
        Head(sketch, x, tip, 1);
        foreach (var place in sign.Bent)
        {
            var (from, at) = (place.MainRight + 0.6, y(place.Note.StringIndex));
            if (place.Note.Bend.IsBefore)
                sketch.Line(x, x < place.MainRight ? at - gap * 0.4 : at, x, tip + 2, 0.75, Tint.Ink);
            else
                Curve(sketch, from, at, x, tip + 2);
            var back = Math.Min(x + 9, Clear(slot, places, place) - 2);
            if (!place.Note.Bend.IsReleased || back < Math.Max(x, place.MainRight) + 2)
                continue;
            Curve(sketch, back, at - 2.6, x, tip + 1);
            Head(sketch, back, at - gap * 0.1, -1);
        }
    }

    /// <summary>How far a string is free behind a note; the strings over it too, through which the way back down leads.</summary>
    private static double Clear(BarSlot slot, TabPlace[][] places, TabPlace place) =>
        places.SelectMany(s => s).Where(p => p.Cell.Claim.Start > place.Cell.Claim.Start && p.Note.StringIndex >= place.Note.StringIndex)
            .Select(p => p.Left).Append(slot.InnerRight).Min();

    /// <summary>Out of the string's level and upright to a place above it.</summary>
    private static void Curve(Sketch sketch, double x1, double y1, double x2, double y2)
    {
        const int Steps = 6;
        var turn = Math.Max(y1 - 7, y2);
        for (var i = 0; i < Steps; i++)
        {
            var (a, b) = (Math.PI / 2 * i / Steps, Math.PI / 2 * (i + 1) / Steps);
            sketch.Line(x1 + (x2 - x1) * Math.Sin(a), y1 + (turn - y1) * (1 - Math.Cos(a)), x1 + (x2 - x1) * Math.Sin(b), y1 + (turn - y1) * (1 - Math.Cos(b)),
                0.75, Tint.Ink);
        }
        sketch.Line(x2, turn, x2, y2, 0.75, Tint.Ink);
    }

    private static void Head(Sketch sketch, double x, double tip, int down) =>
        sketch.Add(new PathMark(string.Create(CultureInfo.InvariantCulture,
            $"M{x:0.##} {tip:0.##}L{x + 1.5:0.##} {tip + 3 * down:0.##}L{x - 1.5:0.##} {tip + 3 * down:0.##}Z"), new(Fill: Tint.Ink)));

    private static void Wave(Sketch sketch, double left, double right, double y)
    {
        const double Half = 1.75;
        var waves = Math.Max(3, (int)((right - left) / Half));
        var path = new System.Text.StringBuilder(string.Create(CultureInfo.InvariantCulture, $"M{left:0.##} {y:0.##}"));
        for (var i = 0; i < Math.Min(waves, 14); i++)
            path.Append(CultureInfo.InvariantCulture, $"q{Half / 2:0.###} {(i % 2 == 0 ? -2.2 : 2.2):0.#} {Half:0.##} 0");
        sketch.Add(new PathMark(path.ToString(), new(Stroke: Tint.Ink, Width: 0.85)));
    }

    private void DrawRinging(Sketch sketch, BarSlot slot, TabPlace[][] places, double baseline)
    {
        var runs = Runs(slot, places);
        const string Words = "let ring";
        var full = FontBook.Width(Words, Face.Narrow, Size);
        var spread = Spread.Of([.. runs.Select(r => r.Left)], [.. runs.Select(_ => full)], slot.InnerLeft, slot.InnerRight, 2);
        for (var i = 0; i < runs.Count; i++)
        {
            var end = spread.Lefts[i] + sketch.Text(Words, spread.Lefts[i], baseline, Face.Narrow, Size * spread.Scale, Tint.Ink) + 2;
            var stop = Math.Min(runs[i].Right, i + 1 < runs.Count ? spread.Lefts[i + 1] - 2 : slot.InnerRight);
            if (stop - end > 4)
                sketch.Add(new LineMark(new(end, baseline - gap * 0.22), new(stop, baseline - gap * 0.22), new(Stroke: Tint.Ink, Width: 0.6, Dash: [2, 1.6])));
        }
    }

    /// <summary>Stretches of a bar in which every note that starts is let ring.</summary>
    private static List<(double Left, double Right)> Runs(BarSlot slot, TabPlace[][] places)
    {
        var runs = new List<(double Left, double Right)>();
        var open = false;
        foreach (var moment in places.SelectMany(s => s).GroupBy(p => p.Cell.Claim.Start).OrderBy(g => g.Key))
        {
            TabPlace[] ringing = [.. moment.Where(p => p.Note.LetsRing)];
            if (ringing.Length > 0)
            {
                var (left, right) = (ringing.Min(p => p.MainLeft), ringing.Max(p => slot.End(p.Cell.Claim)));
                runs.Add(open ? (runs[^1].Left, Math.Max(right, runs[^1].Right)) : (left, right));
                if (open)
                    runs.RemoveAt(runs.Count - 2);
            }
            open = ringing.Length > 0;
        }
        return runs;
    }
}
