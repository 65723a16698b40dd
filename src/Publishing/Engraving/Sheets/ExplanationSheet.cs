using System.Collections.Immutable;
using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Explaining;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>
/// An explanation on paper: the sentences by topic in one column, with where each holds and how usual it is beside them
/// in the margin, and at the end the facts they rest on, by the sentence's number.
/// </summary>
public static class ExplanationSheet
{
    private const double Size = 10.4;
    private const double Small = 7.6;
    private const double Lead = 1.42;
    private const double Margin = 152;
    private const double Gutter = 18;
    private const double NumberWidth = 20;

    /// <summary>Empty where there is nothing to say.</summary>
    public static ImmutableArray<Drawing> Engrave(Explanation explanation, PaperSize paper)
    {
        if (explanation.Remarks.IsEmpty)
            return [];
        var flow = new PageFlow(paper, explanation.Song.Title,
            ["Numbers lead to the facts at the end. Sharing a transcription can need the leave of whoever owns the song."]);
        flow.Add(Head(explanation, flow.Width), 0);
        var number = 0;
        foreach (var (topic, remarks) in explanation.Topics)
        {
            var blocks = remarks.Select(r => Block(explanation, r, ++number, flow.Width)).ToArray();
            flow.Add(Heading(TopicWords.Of(topic), 12.5, flow.Width), 18, blocks[0].Height + 4);
            foreach (var block in blocks)
                flow.Add(block, 7);
        }
        AddCorrections(flow, explanation);
        AddFacts(flow, explanation);
        return flow.Finish();
    }

    private static Drawing Head(Explanation explanation, double width)
    {
        var sketch = new Sketch();
        var y = 0.0;
        foreach (var line in TextWrap.Lines($"{explanation.Song.Title}: why it sounds so", Face.Strong, 21, width))
            sketch.Text(line, -1, (y += 24) - 4, Face.Strong, 21);
        sketch.Fill(Box.At(0, y + 5, width, 1.6), Tint.Ink);
        y += 12;
        foreach (var line in explanation.Caution is { } caution ? TextWrap.Lines(caution, Face.Text, 9, width) : [])
            sketch.Text(line, 0, y += 12, Face.Text, 9, Tint.Heard);
        return sketch.ToDrawing(width, y + 2);
    }

    private static Drawing Heading(string text, double size, double width)
    {
        var sketch = new Sketch();
        var end = sketch.Text(text, 0, 12, Face.Strong, size);
        sketch.Line(end + 8, 8, width, 8, 0.5, Tint.Faint);
        return sketch.ToDrawing(width, 15);
    }

    private static Drawing Block(Explanation explanation, Remark remark, int number, double width)
    {
        var sketch = new Sketch();
        sketch.Text($"{number}", 0, Size, Face.Digits, 8.4, Tint.Quiet);
        var told = Column(sketch, PitchText.InSentence(remark.Sentence), NumberWidth, width - Margin - Gutter - NumberWidth, Size, Tint.Ink, 0);
        var side = 2.0;
        if (!remark.Places.IsEmpty)
            side = Column(sketch, PlaceWords.Of(explanation.Song, remark.Places), width - Margin, Margin, Small, Tint.Quiet, side);
        if (remark.Usualness is { } usualness)
            side = Column(sketch, Capital(TopicWords.Of(usualness.Frequency)), width - Margin, Margin, Small, Tint.Quiet, side + (side > 2 ? 3 : 0));
        return sketch.ToDrawing(width, Math.Max(told, side));
    }

    private static void AddCorrections(PageFlow flow, Explanation explanation)
    {
        string[] notes = [.. Corrections.Of(explanation.Song)];
        if (notes.Length == 0)
            return;
        flow.Add(Heading("Corrections", 12.5, flow.Width), 18, 30);
        foreach (var note in notes)
        {
            var sketch = new Sketch();
            var height = Column(sketch, note, NumberWidth, flow.Width - NumberWidth, Size, Tint.Ink, 0);
            flow.Add(sketch.ToDrawing(flow.Width, height), 4);
        }
    }

    private static void AddFacts(PageFlow flow, Explanation explanation)
    {
        flow.Add(Heading("The facts behind the sentences", 12.5, flow.Width), 22, 40);
        var number = 0;
        foreach (var remark in explanation.Remarks)
        {
            var sketch = new Sketch();
            sketch.Text($"{++number}", 0, Small + 0.6, Face.Digits, Small, Tint.Quiet);
            var y = 0.0;
            if (remark.Usualness is { } usualness)
                y = Column(sketch, PitchText.InSentence($"how usual: {TopicWords.Of(usualness.Frequency)} ({usualness.Measure})"), NumberWidth,
                    flow.Width - NumberWidth, Small, Tint.Ink, y);
            foreach (var fact in remark.Facts)
                y = Column(sketch, PitchText.InSentence($"{fact.Name}: {fact.Value} ({fact.Method})"), NumberWidth, flow.Width - NumberWidth,
                    Small, Tint.Ink, y);
            flow.Add(sketch.ToDrawing(flow.Width, y), 4);
        }
    }

    /// <summary>Sets wrapped text and returns where it ends.</summary>
    private static double Column(Sketch sketch, string text, double x, double width, double size, Tint tint, double top)
    {
        foreach (var line in TextWrap.Lines(text, Face.Text, size, width))
        {
            sketch.Text(line, x, top + size, Face.Text, size, tint);
            top += size * Lead;
        }
        return top;
    }

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
