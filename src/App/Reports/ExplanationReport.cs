using System.Globalization;
using System.Text;
using System.Text.Json;
using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Explaining;
using Harkbook.Music.Songs;

namespace Harkbook.App.Reports;

/// <summary>An explanation as plain text, which reads well aloud, and as JSON, which holds every fact.</summary>
internal static class ExplanationReport
{
    private const int Width = 91;

    /// <param name="facts">Whether each sentence's facts are written below it.</param>
    public static string Text(Explanation explanation, bool facts)
    {
        var text = new StringBuilder(explanation.Song.Title).AppendLine();
        if (explanation.Caution is { } caution)
            Wrap(text.AppendLine(), caution, "");
        foreach (var (topic, remarks) in explanation.Topics)
        {
            text.AppendLine().AppendLine(TopicWords.Of(topic));
            foreach (var remark in remarks)
                Write(text, remark, explanation.Song, facts);
        }
        if (explanation.Remarks.IsEmpty && !explanation.Song.Bars.Any(b => b.Chords.Length + b.Sung.Length + b.Picked.Length + b.Harp.Length + b.Tune.Length
            + b.Strums.Length > 0))
            text.AppendLine().AppendLine("There is nothing to say yet: the song holds no chords, notes or words.");
        return text.ToString();
    }

    public static string Json(Explanation explanation)
    {
        var clock = new SongClock(explanation.Song);
        return JsonSerializer.Serialize(
            new
            {
                title = explanation.Song.Title,
                caution = explanation.Caution,
                remarks = explanation.Remarks.Select(r => new
                {
                    topic = JsonLayout.Name(r.Topic),
                    kind = JsonLayout.Name(r.Kind),
                    sentence = r.Sentence,
                    usualness = r.Usualness is { } u ? new { how = JsonLayout.Name(u.Frequency), measure = u.Measure } : null,
                    places = r.Places.Select(p => new { bar = p.Bar, beat = p.Start.Value, beats = p.Length.Value,
                        time = Math.Round(clock.TimeOf(p.Bar, p.Start).Value, 3) }),
                    facts = r.Facts.Select(f => new { name = f.Name, value = f.Value, method = f.Method }),
                }),
            },
            JsonLayout.Readable) + "\n";
    }

    private static void Write(StringBuilder text, Remark remark, Song song, bool facts)
    {
        text.AppendLine();
        Wrap(text, remark.Sentence, "  ");
        if (!remark.Places.IsEmpty)
            Wrap(text, PlaceWords.Of(song, remark.Places), "    where: ");
        if (remark.Usualness is { } usualness)
            Wrap(text, TopicWords.Of(usualness.Frequency) + (facts ? $": {usualness.Measure}" : ""), "    how usual: ");
        foreach (var fact in facts ? remark.Facts : [])
            Wrap(text, string.Create(CultureInfo.InvariantCulture, $"{fact.Value} ({fact.Method})"), $"    {fact.Name}: ");
    }

    /// <summary>Further lines stand below the first one's text.</summary>
    private static void Wrap(StringBuilder text, string words, string lead)
    {
        var label = lead.TrimStart();
        var indent = new string(' ', lead.Length - label.Length + (label.Length > 0 ? 2 : 0));
        foreach (var line in Wrapping.Lines(words.Split(' ', StringSplitOptions.RemoveEmptyEntries), Width, lead, indent))
            text.AppendLine(line);
    }
}
