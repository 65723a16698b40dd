using System.Globalization;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Diagrams;

/// <summary>
/// Draws a chord diagram for any tuning: strings as thick as they sound low, a banjo's short one only from where it starts, each named at its foot (strong
/// where it
/// differs from standard tuning), stopped strings, barres and fingers, rings for open strings and crosses for muted
/// ones, the first fret's number, the capo. A name underlined with dots was heard and not yet decided;
/// fingers that nobody has decided stand on pale ground.
/// </summary>
public sealed class ChordDiagram
{
    private const double Side = 1.05;
    private const double NameSize = 1.75;
    private const double SmallestName = 0.62;
    private const double SignsAbove = 0.66;
    private const double FootSize = 0.66;
    private const double FootLine = 0.86;
    private const double CaptionSize = 0.6;
    private const double SecondSize = 0.9;
    private const double SecondLine = 0.94;
    private const double FretNumberSize = 0.78;

    private readonly ChordDiagramSubject subject;
    private readonly ChordDiagramStyle style;
    private readonly NeckView view;
    private readonly NeckGrid grid;
    private readonly ChordLettering name;
    private readonly string second;
    private readonly Sketch sketch = new();
    private readonly int shortFrom;
    private readonly double u;
    private readonly double width;
    private readonly double height;

    private ChordDiagram(ChordDiagramSubject subject, ChordDiagramStyle style)
    {
        (this.subject, this.style, u) = (style.ShowFingers ? subject.Fingered() : subject, style, style.StringGap);
        shortFrom = ShortFrom(subject.Tuning);
        view = NeckView.Of(this.subject, style.FewestFrets);
        var across = Math.Max(u, (subject.Shape.Frets.Length - 1) * u);
        var shape = new NeckGrid(style.Direction, default, subject.Shape.Frets.Length, view.Frets, u,
            style.LeftHanded && style.Direction == NeckDirection.Upright);
        var feet = FootRows * FootLine * u + (Caption.Length > 0 ? FootLine * u : 0) + 0.2 * u;
        var body = shape.IsUpright ? across + 2 * SideOf(view.FirstFret) : shape.AlongStrings + LevelLead + 0.5 * u;
        name = ChordLettering.Fitting(subject.FirstName, NameSize * u, body, SmallestName);
        second = PitchText.InSentence(subject.SecondName);
        width = Math.Max(body, new[] { name.Width, FontBook.Width(Caption, Face.Narrow, CaptionSize * u),
            FontBook.Width(second, Face.Narrow, SecondSize * u) }.Max() + 0.2 * u);
        var inset = (width - body) / 2;
        var top = NameSize * u * 1.3 + (second.Length > 0 ? SecondLine * u : 0);
        grid = shape.IsUpright
            ? shape with { Origin = new((width - shape.AcrossStrings) / 2, top + 1.25 * u) }
            : shape with { Origin = new(inset + LevelLead, top + 0.6 * u) };
        height = shape.IsUpright
            ? grid.Origin.Y + shape.AlongStrings + 0.1 * u + feet
            : grid.Origin.Y + shape.AcrossStrings + u * (view.FirstFret > 1 || view.CapoFret > 0 ? 1.35 : 0.6) + (Caption.Length > 0 ? FootLine * u : 0);
    }

    private int FootRows => (style.Foot.HasFlag(StringFoot.OpenStrings) ? 1 : 0) + (style.Foot.HasFlag(StringFoot.SoundingNotes) ? 1 : 0);

    private double LevelLead => u * (1.35 + FootRows * 1.05);

    private string Caption =>
        subject.Capo.Fret == 0 || !style.NameCapo ? ""
        : subject.Capo.IsPartial ? $"partial capo {subject.Capo.Fret}"
        : $"capo {subject.Capo.Fret}";

    public static Drawing Engrave(ChordDiagramSubject subject, ChordDiagramStyle style)
    {
        if (!(style.StringGap > 0) || style.FewestFrets is < 3 or > 24)
            throw new ArgumentOutOfRangeException(nameof(style), style, "A diagram has a gap above 0 between strings and shows 3 to 24 frets at least.");
        if (subject.Shape.Frets.Length != subject.Tuning.Count)
            throw new ArgumentException($"Shape {subject.Shape} has {subject.Shape.Frets.Length} strings and the tuning has {subject.Tuning.Count}.",
                nameof(subject));
        return new ChordDiagram(subject, style).Draw();
    }

    private Drawing Draw()
    {
        DrawName();
        DrawNeck();
        DrawCapo();
        DrawFingers();
        DrawSigns();
        DrawFeet();
        DrawFretNumber();
        return sketch.ToDrawing(width, height, $"{subject.FirstName}: {subject.Shape}");
    }

    private void DrawName()
    {
        var left = (width - name.Width) / 2;
        var baseline = NameSize * u * 0.95;
        name.Draw(sketch, left, baseline);
        if (subject.Standing.Kind == StandingKind.Heard)
            sketch.Dots(left, left + name.Width, baseline + 0.36 * u, 0.13 * u);
        if (second.Length > 0)
            sketch.Text(second, width / 2, baseline + 1.18 * u, Face.Narrow, SecondSize * u, Tint.Quiet, Align.Centre);
    }

    private void DrawNeck()
    {
        for (var fret = view.FirstFret > 1 ? 0 : 1; fret <= view.Frets; fret++)
            Between(grid.At(FirstFretted(view.FirstFret + fret - 1), fret), grid.At(grid.Strings - 1, fret), 0.06 * u, Tint.Line);
        for (var i = 0; i < grid.Strings; i++)
            DrawString(i, i == 0 && shortFrom > 0 ? Math.Clamp(shortFrom - view.FirstFret + 1, 0, view.Frets) : 0);
        if (view.FirstFret == 1)
            sketch.Fill(grid.Across(FirstFretted(0), grid.Strings - 1, -0.05, 0.085 * u, 0.06 * u), Tint.Ink);
    }

    /// <summary>A short string, as a banjo's, has no neck under it before it starts: there it is only hinted at.</summary>
    private void DrawString(int index, int from)
    {
        var thickness = Thickness(subject.Tuning.Strings[index]);
        if (from > 0)
            Between(grid.At(index, 0), grid.At(index, from), thickness, Tint.Faint);
        if (from < view.Frets)
            Between(grid.At(index, from), grid.At(index, view.Frets), thickness, Tint.Line);
    }

    private int FirstFretted(int fret) => fret < shortFrom ? 1 : 0;

    /// <summary>The fret from which the string on the low side runs; 0 where it runs from the nut.</summary>
    private static int ShortFrom(Tuning tuning) =>
        TuningCatalogue.EntriesFor(tuning).Select(t => FrettedInstrument.Find(t.Instrument)).OfType<FrettedInstrument>()
            .SelectMany(i => i.ShortStrings).Where(s => s.Number == tuning.Count).Select(s => s.FromFret).FirstOrDefault();

    /// <summary>From 0.04 of the gap for a thin top string to 0.13 for a bass string.</summary>
    private double Thickness(Pitch open) => u * Math.Clamp(0.13 - (open.Midi - 36) * 0.003, 0.04, 0.13);

    private void DrawCapo()
    {
        if (view.CapoFret is not null)
            sketch.Fill(grid.Across(subject.Capo.OnlyStrings[0], subject.Capo.OnlyStrings[^1], CapoAlong, 0.13 * u, 0.34 * u), Tint.Quiet, 0.13 * u);
        else if (subject.Capo.Fret > 0 && view.FirstFret == 1)
            sketch.Fill(grid.Across(0, grid.Strings - 1, -0.05, 0.15 * u, 0.36 * u), Tint.Quiet, 0.15 * u);
    }

    private void DrawFingers()
    {
        foreach (var barre in view.Barres)
        {
            DrawBarre(grid.Across(barre.LowString, barre.HighString, Along(barre.Fret), Reach, Reach));
            DrawFinger(barre.Finger, grid.At(barre.LowString, Along(barre.Fret)));
        }
        foreach (var stop in view.Stops.Where(s => !view.IsUnderBarre(s)))
        {
            var at = grid.At(stop.String, Along(stop.Fret));
            DrawDot(at);
            DrawFinger(stop.Finger, at);
        }
    }

    private void DrawBarre(Box box)
    {
        if (IsPale)
            sketch.Add(new RectMark(box.Grown(-PaleRim / 2), Reach - PaleRim / 2, new(Tint.Faint, Tint.Hand, PaleRim)));
        else
            sketch.Fill(box, Tint.Hand, Reach);
    }

    private void DrawDot(Point at)
    {
        if (IsPale)
            sketch.Ring(at.X, at.Y, Reach - PaleRim / 2, PaleRim, Tint.Hand, Tint.Faint);
        else
            sketch.Dot(at.X, at.Y, Reach, Tint.Hand);
    }

    private double Reach => 0.36 * u;

    private double PaleRim => 0.08 * u;

    /// <summary>Nobody has decided the fingers that the diagram numbers.</summary>
    private bool IsPale => subject.FingersGuessed && style.ShowFingers && !subject.Shape.Fingers.IsEmpty;

    private double CapoAlong => view.CapoFret!.Value - view.FirstFret + 0.74;

    private double Along(int fret) => fret - view.FirstFret + 0.5;

    private void DrawFinger(int finger, Point at)
    {
        const double Size = 0.64;
        if (finger > 0 && style.ShowFingers)
            sketch.Text(Number(finger), at.X, at.Y + Size * u * FontBook.CapHeight / 2, Face.NarrowStrong, Size * u, IsPale ? Tint.Hand
                : Tint.OnColour, Align.Centre);
    }

    private void DrawSigns()
    {
        for (var i = 0; i < grid.Strings; i++)
        {
            var atCapo = view.CapoFret is not null && subject.Capo.Raises(i) > 0;
            var at = grid.At(i, atCapo ? CapoAlong : -SignsAbove * u / grid.FretGap);
            if (subject.Shape.Frets[i] is null)
                at = grid.At(i, -SignsAbove * u / grid.FretGap);
            if (subject.Shape.Frets[i] is null)
                DrawCross(at, 0.2 * u);
            else if (subject.Shape.Frets[i] == 0)
                sketch.Ring(at.X, at.Y, 0.23 * u, 0.085 * u, Tint.Ink, atCapo ? Tint.Paper : null);
        }
    }

    private void DrawCross(Point at, double arm)
    {
        sketch.Line(at.X - arm, at.Y - arm, at.X + arm, at.Y + arm, 0.085 * u, Tint.Ink);
        sketch.Line(at.X - arm, at.Y + arm, at.X + arm, at.Y - arm, 0.085 * u, Tint.Ink);
    }

    private void DrawFeet()
    {
        var row = 0;
        if (style.Foot.HasFlag(StringFoot.OpenStrings))
        {
            for (var i = 0; i < grid.Strings; i++)
                DrawFoot(i, row, PitchText.Of(subject.Tuning.Strings[i].Name), IsAltered(i) ? Face.NarrowStrong : Face.Narrow,
                    IsAltered(i) ? Tint.Ink : Tint.Quiet);
            row++;
        }
        if (style.Foot.HasFlag(StringFoot.SoundingNotes))
        {
            var notes = subject.NoteNames();
            for (var i = 0; i < grid.Strings; i++)
                DrawFoot(i, row, notes[i] is { } note ? PitchText.Of(note) : "–", Face.NarrowStrong, Tint.Hand);
        }
        if (Caption.Length > 0)
            sketch.Text(Caption, CaptionX, height - 0.22 * u, Face.Narrow, CaptionSize * u, Tint.Quiet, Align.Centre);
    }

    private double SideOf(int firstFret) =>
        firstFret == 1 ? Side * u : Math.Max(Side * u, 0.66 * u + FontBook.Width(Number(firstFret), Face.NarrowStrong, FretNumberSize * u));

    private double CaptionX => grid.IsUpright ? width / 2 : (grid.At(0, 0).X + grid.At(0, view.Frets).X) / 2;

    private void DrawFoot(int stringIndex, int row, string text, Face face, Tint tint)
    {
        var room = grid.IsUpright ? 0.92 * u : 0.98 * u;
        var size = Math.Min(FootSize * u, FootSize * u * room / FontBook.Width(text, face, FootSize * u));
        var at = grid.IsUpright
            ? new Point(grid.At(stringIndex, 0).X, grid.At(0, view.Frets).Y + (0.86 + row * FootLine) * u)
            : new Point(grid.Origin.X - (1.55 + (FootRows - 1 - row) * 1.05) * u, grid.At(stringIndex, 0).Y + size * FontBook.CapHeight / 2);
        sketch.Text(text, at.X, at.Y, face, size, tint, Align.Centre);
    }

    private bool IsAltered(int stringIndex) =>
        subject.Tuning.Count == Tuning.Standard.Count && subject.Tuning.Strings[stringIndex].Midi != Tuning.Standard.Strings[stringIndex].Midi;

    private void DrawFretNumber()
    {
        if (view.FirstFret == 1)
            return;
        var (size, middle) = (FretNumberSize * u, grid.At(grid.IsMirrored ? grid.Strings - 1 : 0, 0.5));
        if (grid.IsUpright)
            sketch.Text(Number(view.FirstFret), middle.X - 0.56 * u, middle.Y + size * FontBook.CapHeight / 2, Face.NarrowStrong, size, Tint.Ink, Align.Right);
        else
            sketch.Text(Number(view.FirstFret), middle.X, middle.Y + 1.15 * u, Face.NarrowStrong, size, Tint.Ink, Align.Centre);
    }

    private void Between(Point from, Point to, double thickness, Tint tint) => sketch.Line(from.X, from.Y, to.X, to.Y, thickness, tint);

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
