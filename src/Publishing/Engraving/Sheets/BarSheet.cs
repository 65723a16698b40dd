using System.Collections.Immutable;
using Harkbook.Music.Analysis;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Diagrams;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Engraving.Shelves;
using Harkbook.Publishing.Engraving.Tabs;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>
/// A whole song on paper: facts, shapes, and every section bar by bar, each part a row over one beat ruler: the hands
/// above it, voice and breath below. A strum or a picked bar that a section repeats is printed once, at its head.
/// </summary>
public static class BarSheet
{
    private const double LineGap = 11;

    public static ImmutableArray<Drawing> Engrave(Song song, PaperSize paper) => Engrave(song, paper, Passage.Whole(song));

    /// <summary>Some bars of the song, with the shapes that they use.</summary>
    public static ImmutableArray<Drawing> Engrave(Song song, PaperSize paper, Passage passage)
    {
        var part = passage.PartOf(song);
        var drawn = UndecidedVoice.LeftOut(part);
        var flow = new PageFlow(paper, song.Title, SheetNotes.Footer(drawn));
        flow.Add(SongHead.Engrave(song, flow.Width), 0);
        foreach (var row in ShapeShelf.Engrave(drawn, flow.Width))
            flow.Add(row, 14);
        if (ShapeCautions.Engrave(drawn, flow.Width) is { } cautions)
            flow.Add(cautions, 6);
        var clock = new SongClock(song);
        SheetPatterns[] patterns = [SheetPatterns.OfTab(drawn), SheetPatterns.OfStrums(drawn)];
        var lines = new BarSystems(SongRows.OfSheet(drawn, patterns), flow.Width, song.Recording is null ? null : clock) { StarsCorrections = true };
        foreach (var section in drawn.Sections)
            AddSection(flow, section, lines, patterns, clock, song.Recording is not null);
        if (SheetNotes.Engrave(song, part, flow.Width) is { } notes)
            flow.Add(notes, 22);
        return flow.Finish();
    }

    private static void AddSection(PageFlow flow, Section section, BarSystems lines, SheetPatterns[] patterns, SongClock clock, bool timed)
    {
        Drawing[] heads = [.. patterns.Select(p => p.Head(section, flow.Width)).OfType<Drawing>()];
        Drawing[] drawn = [.. heads, .. lines.Of(section.Bars)];
        flow.Add(Header(section, flow.Width, clock, timed), 18, drawn.Take(heads.Length + 1).Select((d, i) => d.Height + (i == 0 ? 6 : LineGap)).Sum());
        for (var i = 0; i < drawn.Length; i++)
            flow.Add(drawn[i], i == 0 ? 6 : LineGap);
    }

    private static Drawing Header(Section section, double width, SongClock clock, bool timed)
    {
        var sketch = new Sketch();
        var span = Span(section, clock, timed);
        var spanWidth = FontBook.Width(span, Face.Text, 7.6);
        var name = TextWrap.Cut(section.Name, Face.Strong, 12.5, width - spanWidth - 12);
        var end = sketch.Text(name, 0, 12, Face.Strong, 12.5);
        sketch.Line(end + 8, 8, width - spanWidth - 8, 8, 0.5, Tint.Faint);
        sketch.Text(span, width, 11, Face.Text, 7.6, Tint.Quiet, Align.Right);
        return sketch.ToDrawing(width, 16);
    }

    private static string Span(Section section, SongClock clock, bool timed)
    {
        if (section.Bars.IsEmpty)
            return "no bars";
        var (first, last) = (section.Bars[0].Number, section.Bars[^1].Number);
        var bars = PlaceWords.Bars(first, last);
        return timed ? $"{bars}  ·  {ClockText.Of(clock.TimeOf(first))} to {ClockText.Of(clock.TimeOf(last + 1))}" : bars;
    }
}
