using System.Net;
using System.Text;
using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Explaining;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons.Page;

/// <summary>The page's explanation: each sentence opens to its facts, each place goes to its bar. It can be read without scripts.</summary>
internal static class PageRemarks
{
    public static string Of(LessonTimeline timeline, Explanation explanation)
    {
        if (explanation.Remarks.IsEmpty)
            return "";
        var html = new StringBuilder("<section class=\"why\" aria-labelledby=\"why\">\n<h2 id=\"why\">Why it sounds so</h2>\n<p>Open a sentence to see what it "
            + "rests on; a number goes to that bar.</p>\n<div class=\"told\">\n");
        if (explanation.Caution is { } caution)
            html.Append($"<p class=\"doubt\">{Safe(caution)}</p>\n");
        foreach (var (topic, remarks) in explanation.Topics)
        {
            html.Append($"<h3>{Safe(TopicWords.Of(topic))}</h3>\n");
            foreach (var remark in remarks)
                html.Append(Item(timeline, remark));
        }
        return html.Append("</div>\n</section>\n").ToString();
    }

    private static string Item(LessonTimeline timeline, Remark remark)
    {
        var facts = string.Concat(
            remark.Facts.Select(f => $"<dt>{Safe(PitchText.InSentence(f.Name))}</dt><dd>{Safe(PitchText.InSentence(f.Value))} "
            + $"<small>{Safe(f.Method)}</small></dd>"));
        var usual = remark.Usualness is { } u ? $"<dt>how usual</dt><dd>{Safe(TopicWords.Of(u.Frequency))} <small>{Safe(u.Measure)}</small></dd>" : "";
        var said = Safe(PitchText.InSentence(remark.Sentence));
        return $"<div class=\"said\"><details><summary>{said}</summary><dl>{usual}{facts}</dl></details>\n{Places(timeline, remark)}</div>\n";
    }

    private static string Places(LessonTimeline timeline, Remark remark)
    {
        if (remark.Places.IsEmpty)
            return "";
        var runs = PlaceWords.Runs(remark.Places.Select(p => p.Bar));
        return $"<p class=\"places\">{(runs is [var one] && one.First == one.Last ? "bar" : "bars")} "
            + $"{string.Concat(runs.Select(r => Button(timeline, r.First, r.Last)))}</p>\n";
    }

    private static string Button(LessonTimeline timeline, int first, int last)
    {
        var shown = first == last ? $"{first}" : $"{first}–{last}";
        return $"<button type=\"button\" data-go=\"{first - 1}\" aria-label=\"go to bar {first}, {Safe(Section(timeline, first))}\">{shown}</button>";
    }

    private static string Section(LessonTimeline timeline, int bar) => timeline.Song.Sections[timeline.Bars[bar - 1].SectionIndex].Name;

    private static string Safe(string text) => WebUtility.HtmlEncode(text);
}
