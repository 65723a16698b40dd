using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Diagrams;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons.Page;

/// <summary>
/// The page's drawings, each once: a diagram for every chord, a strip of all parts for every bar, the rows' names for every
/// section, all from one set of glyphs. Their colours are the page's variables, so that one drawing serves light and dark.
/// </summary>
internal sealed partial class PageDrawings
{
    /// <summary>What a bar of the song's meter may be wide, in points: the first at which all bars stand, and some wider ones to fill a screen.</summary>
    private static readonly double[] BarWidths = [150, 180, 215, 260, 310, 397];
    private static readonly double[] Wider = [1, 1.2, 1.45, 1.75, 2.1];

    private static readonly (Tint Tint, string Variable)[] Variables =
    [
        (Tint.Ink, "ink"), (Tint.Quiet, "quiet"), (Tint.Line, "line"), (Tint.Faint, "faint"), (Tint.Hand, "hand"),
        (Tint.Voice, "voice"), (Tint.Blow, "blow"), (Tint.Draw, "draw"), (Tint.Now, "now"), (Tint.Paper, "paper"),
    ];

    private readonly LessonTimeline timeline;
    private readonly List<string> templates = [];
    private readonly Dictionary<string, int> known = [];
    private readonly Dictionary<int, int> margins = [];
    private readonly SortedSet<string> glyphs = new(StringComparer.Ordinal);

    public PageDrawings(LessonTimeline timeline)
    {
        this.timeline = timeline;
        Chords = [.. timeline.Chords.Select(c => Template(Diagram(c.Value)))];
        BarRow[] rows = [.. SongRows.Of(timeline.Song, harp: 9.2)];
        var beats = timeline.Song.Meter.Value.BeatsPerBar;
        var narrowest = BarWidths.FirstOrDefault(w => timeline.Bars.All(b => BarStrip.Stands(b, rows, w / beats)), BarWidths[^1]);
        double[] beatWidths = [.. Wider.Select(w => w * narrowest / beats).Where(w => w * beats <= Math.Max(narrowest, BarWidths[^1]))];
        var bars = ImmutableArray.CreateBuilder<ImmutableArray<(int, ImmutableArray<double>)>>();
        foreach (var section in timeline.Bars.GroupBy(b => b.SectionIndex))
        {
            BarRow[] used = [.. rows.Where(r => section.Any(b => r.Has(b.Bar))).Select(r => r.For(section.Select(b => b.Bar)))];
            margins[section.Key] = Template(BarStrip.Margin(used));
            bars.AddRange(section.Select(b => beatWidths.Select(w => Strip(b, used, w)).ToImmutableArray()));
        }
        Bars = bars.ToImmutable();
    }

    /// <summary>The template's number for each of the timeline's chords.</summary>
    public ImmutableArray<int> Chords { get; }

    /// <summary>For each bar at each width, narrowest first, the template's number, and where its beats and its end stand, 0 to 1 of the width.</summary>
    public ImmutableArray<ImmutableArray<(int Template, ImmutableArray<double> Beats)>> Bars { get; }

    /// <summary>The template's number for the names of a section's rows.</summary>
    public int MarginOf(int section) => margins[section];

    /// <summary>All templates as HTML.</summary>
    public string Templates
    {
        get
        {
            var html = new StringBuilder("<svg width=\"0\" height=\"0\" style=\"position:absolute\" aria-hidden=\"true\"><defs>\n");
            foreach (var glyph in glyphs)
                html.Append(glyph).Append('\n');
            html.Append("</defs></svg>\n");
            for (var i = 0; i < templates.Count; i++)
                html.Append($"<template id=\"d{i}\">{templates[i]}</template>\n");
            return html.ToString();
        }
    }

    private (int, ImmutableArray<double>) Strip(TimedBar bar, BarRow[] rows, double beatWidth)
    {
        var (drawing, beats) = BarStrip.Of(bar, rows, beatWidth);
        return (Template(drawing), [.. beats.Select(b => Math.Round(b, 4))]);
    }

    private int Template(Drawing drawing)
    {
        var svg = SvgWriter.Write(drawing, Palette.Paper, SvgText.Outlines);
        foreach (var (tint, variable) in Variables)
            svg = svg.Replace($"\"{Palette.Paper[tint]}\"", $"\"var(--{variable})\"", StringComparison.OrdinalIgnoreCase);
        svg = Defs().Replace(svg, defs =>
        {
            glyphs.UnionWith(Glyph().Matches(defs.Value).Select(g => g.Value));
            return "";
        });
        if (known.TryGetValue(svg, out var index))
            return index;
        templates.Add(svg);
        return known[svg] = templates.Count - 1;
    }

    private Drawing Diagram(ChordUse chord)
    {
        var song = timeline.Song;
        if (chord.Shape is { } shape)
        {
            var subject = ChordDiagramSubject.Of(song, shape, chord.Name, Standing.Decided);
            return ChordDiagram.Engrave(subject, new ChordDiagramStyle(30, Foot: StringFoot.SoundingNotes));
        }
        var sketch = new Sketch();
        var name = CapoNames.Of(song)?.First(chord.Name) ?? chord.Name;
        var lettering = ChordLettering.Fitting(name, 60, 260, 0.3);
        lettering.Draw(sketch, 0, 60);
        return sketch.ToDrawing(Math.Max(60, lettering.Width), 160, name);
    }

    [GeneratedRegex(@"\s*<defs>.*?</defs>", RegexOptions.Singleline)]
    private static partial Regex Defs();

    [GeneratedRegex("<path [^>]*>")]
    private static partial Regex Glyph();
}
