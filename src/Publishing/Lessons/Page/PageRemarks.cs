using System.Net;
using System.Text;
using Harkbook.Music.Analysis;
using Harkbook.Publishing.Engraving;

namespace Harkbook.Publishing.Lessons.Page;

/// <summary>The page's explanation: each sentence opens to its facts, each place goes to its bar. It can be read without scripts.</summary>
internal static class PageRemarks
{
    public static string Of(LessonTimeline timeline, Explanation explanation)
    {
        if (explanation.Remarks.IsEmpty)
            return "";
        var html = new StringBuilder("<section class=\"why\" aria-labelledby=\"why\">\n<h2 id=\"why\">Why it sounds so</h2>\n");
        if (explanation.Caution is { } caution)
            html.Append($"<p class=\"doubt\">{Safe(caution)}</p>\n");
        foreach (var (topic, remarks) in explanation.Topics)
        {
            html.Append($"<h3>{Safe(TopicWords.Of(topic))}</h3>\n");
            foreach (var remark in remarks)
                html.Append(Item(timeline, remark));
        }
        return html.Append("</section>\n").ToString();
    }

    private static string Item(LessonTimeline timeline, Remark remark)
    {
        var facts = string.Concat(remark.Facts.Select(f => $"<dt>{Safe(f.Name)}</dt><dd>{Safe(PitchText.Signed(f.Value))} <small>{Safe(f.Method)}</small></dd>"));
        var usual = remark.Usualness is { } u ? $"<p class=\"usual\">{Safe(TopicWords.Of(u.Frequency))}: {Safe(u.Measure)}</p>" : "";
        return $"<details><summary>{Safe(PitchText.Signed(remark.Sentence))}</summary>{usual}<dl>{facts}</dl></details>\n{Places(timeline, remark)}";
    }

    private static string Places(LessonTimeline timeline, Remark remark)
    {
        var buttons = remark.Places.DistinctBy(p => p.Bar).Select(p => $"<button type=\"button\" data-go=\"{p.Bar - 1}\" aria-label=\"go to bar {p.Bar}, {Safe(Section(timeline, p.Bar))}\">{p.Bar}</button>");
        return remark.Places.IsEmpty ? "" : $"<p class=\"places\">bars {string.Concat(buttons)}</p>\n";
    }

    private static string Section(LessonTimeline timeline, int bar) =>
        timeline.Song.Sections[timeline.Bars.First(b => b.Bar.Number == bar).SectionIndex].Name;

    private static string Safe(string text) => WebUtility.HtmlEncode(text);
}
