using System.Globalization;
using System.Net;
using System.Text;
using Harkbook.Music.Analysis.Explaining;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Lessons.Page;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons;

/// <summary>
/// The play-along as one HTML file that needs no network: sound, drawings and script are inside. It slows down without
/// changing the pitch, goes round a section or any bars with what was asked for before each round, clicks, fits a phone on a
/// stand, and follows the reader's light or dark setting.
/// </summary>
public static class PlayAlongPage
{
    /// <summary>The page's script by job, in the order in which each needs the one before.</summary>
    private static readonly string[] Scripts = ["song.js", "rows.js", "stage.js", "click.js", "practice.js", "page.js"];

    /// <param name="sound">The sound file's bytes, which become part of the page.</param>
    /// <param name="mediaType">"audio/mp4" or "audio/wav".</param>
    /// <param name="length">The sound's length in seconds.</param>
    /// <param name="explanation">What is said about the song below its bars; null to say nothing.</param>
    public static string Write(LessonTimeline timeline, byte[] sound, string mediaType, double length, Explanation? explanation = null)
    {
        var song = timeline.Song;
        var drawings = new PageDrawings(timeline);
        return PageTemplate.Fill(PageTemplate.Part("page/page.html"), new Dictionary<string, string>
        {
            ["title"] = WebUtility.HtmlEncode(song.Title),
            ["player"] = WebUtility.HtmlEncode(song.Player ?? ""),
            ["facts"] = string.Concat(SongFacts.Of(song).Select(Fact)),
            ["style"] = PageTemplate.Part("page/page.css"),
            ["script"] = string.Concat(Scripts.Select(s => PageTemplate.Part("page/" + s))),
            ["form"] = Form(timeline),
            ["why"] = (explanation is null ? "" : PageRemarks.Of(timeline, explanation)) + Corrected(song),
            ["data"] = PageTemplate.Json(PageData.Of(timeline, drawings, length)),
            ["drawings"] = drawings.Templates,
            ["heard"] = song.Recording is null ? "Instruments" : "Record",
            ["type"] = WebUtility.HtmlEncode(mediaType),
            ["sound"] = Convert.ToBase64String(sound),
        });
    }

    private static string Corrected(Song song)
    {
        var notes = string.Concat(Corrections.Of(song).Select(n => $"<p>{WebUtility.HtmlEncode(n)}</p>\n"));
        return notes.Length == 0 ? "" : $"<section class=\"why\" aria-label=\"Corrections\">\n<h2>Corrections</h2>\n{notes}</section>\n";
    }

    private static string Fact(PrintedFact fact)
    {
        var doubt = fact.Doubt.Length == 0 ? "" : $" <span class=\"doubt\">{WebUtility.HtmlEncode(fact.Doubt)}</span>";
        return $"<div><dt>{WebUtility.HtmlEncode(fact.Label)}</dt><dd>{WebUtility.HtmlEncode(fact.Value)}{doubt}</dd></div>";
    }

    /// <summary>Sections and bars as they stand in the file, so that they can be read where scripts are off.</summary>
    private static string Form(LessonTimeline timeline)
    {
        var html = new StringBuilder();
        var capo = CapoNames.Of(timeline.Song);
        foreach (var section in timeline.Bars.Select((bar, index) => (bar, index)).GroupBy(b => b.bar.SectionIndex))
        {
            html.Append($"<h2>{WebUtility.HtmlEncode(timeline.Song.Sections[section.Key].Name)}</h2>\n<div class=\"bars\">");
            foreach (var (bar, index) in section)
                html.Append(BarButton(bar, index, capo));
            html.Append("</div>\n");
        }
        return html.ToString();
    }

    private static string BarButton(TimedBar timed, int index, CapoNames? capo)
    {
        var bar = timed.Bar;
        var names = bar.Chords.Select(c => WebUtility.HtmlEncode(ChordWords.Of(capo?.First(c.Value.Name) ?? c.Value.Name))).ToArray();
        var others = bar.Chords.Select(c => capo is null || c.Value.Chord.IsNone
            || capo.Second(c.Value.Name).Length == 0 ? "" : $"<em>{WebUtility.HtmlEncode(ChordWords.Of(capo.Second(c.Value.Name)))}</em>").ToArray();
        var shares = bar.Chords.Select((c, i) => (i + 1 < bar.Chords.Length ? bar.Chords[i + 1].Start : bar.Meter.BarLength).Value - c.Start.Value).ToArray();
        var lead = bar.Chords.Length == 0 ? 0 : bar.Chords[0].Start.Value;
        var spoken = names.Length == 0 ? "no chord" : string.Join(" then ", names);
        var (meter, meterSpoken) = timed.ChangesMeter ? ($" <em>{bar.Meter}</em>", $" in {bar.Meter}") : ("", "");
        var chords = string.Concat(names.Select((n, i) => $"<b style=\"flex:{Weight(shares[i])}\">{n}{others[i]}</b> "));
        return $"<button type=\"button\" data-bar=\"{index}\" aria-label=\"bar {bar.Number}{meterSpoken}, {spoken}\">"
            + $"<small>{bar.Number}{meter}</small><span>{Gap(lead)}{chords}</span></button>";
    }

    private static string Gap(double beats) => beats > 0 ? $"<i style=\"flex:{Weight(beats)}\"></i>" : "";

    /// <summary>Beats as a flex share: no basis, so that widths are as the beats are.</summary>
    private static string Weight(double beats) => beats.ToString("0.###", CultureInfo.InvariantCulture) + " 1 0";
}
