using System.Collections.Immutable;
using Harkbook.Music.Analysis.Practice;
using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Engraving.Shelves;
using Harkbook.Publishing.Engraving.Tabs;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>Some bars to practise, on paper: their shapes, the bars, and a box to tick for each round at each speed.</summary>
public static class ExerciseSheet
{
    private const double LineGap = 12;
    private const string SungCare =
        "Say the words first, then sing them; start slower than feels needed. Take breaks, and stop when a hand or the voice hurts.";
    private const string PlayedCare = "Start slower than feels needed, and go on when a round feels easy. Take breaks, and stop when a hand hurts.";

    /// <summary>The bars alone: voice and guitar on one count where both sound, else the strokes or the tab.</summary>
    /// <param name="width">Points; 200 or more.</param>
    public static Drawing Chart(Song song, IReadOnlyList<Bar> bars, double width) =>
        HasBoth(bars) ? CoordinationChart.Engrave(bars, width, song.Counting, CapoNames.Of(song), song) : BarStack.Engrave(bars, PlayedRows(song, bars), width);

    /// <param name="what">What is practised: "bars 5 to 8".</param>
    public static ImmutableArray<Drawing> Pages(Song song, IReadOnlyList<Bar> bars, ImmutableArray<PracticeStage> stages, string what, PaperSize paper)
    {
        if (bars.Count == 0)
            throw new ArgumentException("A passage has one bar or more.", nameof(bars));
        var both = HasBoth(bars);
        var flow = new PageFlow(paper, song.Title, [bars.All(b => b.Sung.IsEmpty) ? PlayedCare : SungCare]);
        flow.Add(Heading(song.Title, what, both, flow.Width), 0);
        foreach (var row in ShapeShelf.Engrave(Used(song, bars), flow.Width))
            flow.Add(row, 14);
        var rows = both ? CoordinationChart.Rows(bars, song.Counting, CapoNames.Of(song), song) : PlayedRows(song, bars);
        foreach (var line in new BarSystems(rows, flow.Width).Of(bars))
            flow.Add(line, LineGap);
        if (both)
            flow.Add(CoordinationChart.Key(flow.Width), 10);
        flow.Add(PaceLadder.Engrave(stages, flow.Width), 22);
        return flow.Finish();
    }

    private static BarRow[] PlayedRows(Song song, IReadOnlyList<Bar> bars) =>
        [new ChordRow(bars, CapoNames.Of(song)), new TabRow(new(song.Tuning.Value, song.Capo.Value), bars), new StrumRow(), new CountRow(song.Counting),
            new SungRow(), new TuneRow(song)];

    private static bool HasBoth(IEnumerable<Bar> bars) => bars.Select(TwoParts.Of).Any(l => l.HasVoice && l.HasGuitar);

    /// <summary>The song with the shapes that these bars use.</summary>
    private static Song Used(Song song, IReadOnlyList<Bar> bars)
    {
        var names = bars.SelectMany(b => b.Chords).Select(c => c.Value.Name).ToHashSet();
        return song with { Shapes = [.. song.Shapes.Where(s => names.Contains(s.Name))] };
    }

    private static Drawing Heading(string title, string what, bool both, double width)
    {
        var sketch = new Sketch();
        sketch.Text(TextWrap.Cut(title, Face.Strong, 15, width), 0, 15, Face.Strong, 15);
        sketch.Text($"{(both ? "voice and guitar on one count, " : "")}{what}", 0, 29, Face.Text, 9, Tint.Quiet);
        return sketch.ToDrawing(width, 34);
    }
}
