using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Harkbook.Music.Instruments;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using SongFact = Harkbook.Publishing.Engraving.SongFact;

namespace Harkbook.Publishing.Lessons;

/// <summary>
/// The play-along as one HTML file that needs no network: sound, diagrams and script are inside. It slows down without
/// changing the pitch, goes round a section or any bars, and follows the reader's light or dark setting.
/// </summary>
public static class PlayAlongPage
{
    private static readonly JsonSerializerOptions Layout = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.Default };

    // The page's colours are variables, so that one drawing serves light and dark.
    private static readonly (Tint Tint, string Variable)[] Variables =
    [
        (Tint.Ink, "ink"), (Tint.Quiet, "quiet"), (Tint.Line, "line"), (Tint.Faint, "faint"), (Tint.Hand, "hand"),
        (Tint.Voice, "voice"), (Tint.Blow, "blow"), (Tint.Draw, "draw"), (Tint.Now, "now"), (Tint.Paper, "paper"),
    ];

    /// <param name="sound">The sound file's bytes, which become part of the page.</param>
    /// <param name="mediaType">"audio/mp4" or "audio/wav".</param>
    /// <param name="length">The sound's length in seconds.</param>
    public static string Write(LessonTimeline timeline, byte[] sound, string mediaType, double length)
    {
        var song = timeline.Song;
        var diagrams = timeline.Chords.Select(c => Key(c.Value)).Distinct().ToArray();
        return Fill(Resource("page.html"), new()
        {
            ["title"] = WebUtility.HtmlEncode(song.Title),
            ["player"] = WebUtility.HtmlEncode(song.Player ?? ""),
            ["facts"] = string.Concat(SongFacts.Of(song).Select(Fact)),
            ["style"] = Resource("page.css"),
            ["script"] = Resource("page.js"),
            ["data"] = JsonSerializer.Serialize(Data(timeline, diagrams, length), Layout),
            ["diagrams"] = string.Concat(diagrams.Select((d, i) => Template(song, timeline.Chords.First(c => Key(c.Value) == d).Value, i))),
            ["sound"] = $"data:{mediaType};base64,{Convert.ToBase64String(sound)}",
        });
    }

    private static string Fact(SongFact fact)
    {
        var doubt = fact.Doubt.Length == 0 ? "" : $" <span class=\"doubt\">{WebUtility.HtmlEncode(fact.Doubt)}</span>";
        return $"<div><dt>{WebUtility.HtmlEncode(fact.Label)}</dt><dd>{WebUtility.HtmlEncode(fact.Value)}{doubt}</dd></div>";
    }

    private static string Key(ChordUse chord) => $"{chord.Name}|{chord.Shape}";

    private static string Template(Song song, ChordUse chord, int index)
    {
        var svg = SvgWriter.Write(Diagram(song, chord), Palette.Paper, SvgText.Outlines);
        svg = svg[svg.IndexOf("<svg", StringComparison.Ordinal)..];
        // White signs on a coloured ground come before the paper's own white.
        foreach (var (tint, variable) in Variables)
            svg = svg.Replace($"\"{Palette.Paper[tint]}\"", $"\"var(--{variable})\"", StringComparison.OrdinalIgnoreCase);
        return $"<template id=\"d{index}\">{svg}</template>\n";
    }

    private static Drawing Diagram(Song song, ChordUse chord)
    {
        if (chord.Shape is { } shape)
        {
            var subject = new ChordDiagramSubject(shape, chord.Name, song.Tuning.Value, song.Capo.Value, Standing.Decided, song.Key.Value.Centre);
            return ChordDiagram.Engrave(subject, new ChordDiagramStyle(30, Foot: StringFoot.SoundingNotes));
        }
        var sketch = new Sketch();
        var lettering = ChordLettering.Of(chord.Name, 60);
        lettering.Draw(sketch, 0, 60);
        return sketch.ToDrawing(Math.Max(60, lettering.Width), 160, chord.Name);
    }

    private static object Data(LessonTimeline timeline, string[] diagrams, double length) => new
    {
        Length = Math.Round(length, 3),
        Sections = Sections(timeline),
        Bars = timeline.Bars.Select(BarData),
        Chords = timeline.Chords.Select(c => new { Start = Ms(c.Start), End = Ms(c.End), c.Value.Name, Diagram = Array.IndexOf(diagrams, Key(c.Value)) }),
        Harp = timeline.Harp.Select(h => new { Start = Ms(h.Start), End = Ms(h.End), Holes = string.Join(' ', h.Value.OrderBy(n => n.Hole).Select(Hole)), Breath = h.Value[0].Breath == Breath.Blow ? "blow" : "draw" }),
    };

    private static IEnumerable<object> Sections(LessonTimeline timeline) =>
        timeline.Bars.Select((bar, index) => (bar.SectionIndex, index)).GroupBy(b => b.SectionIndex)
            .Select(g => new { timeline.Song.Sections[g.Key].Name, First = g.Min(b => b.index), Last = g.Max(b => b.index) });

    private static object BarData(TimedBar timed)
    {
        var bar = timed.Bar;
        double At(Units.Beats beats) => Math.Round(beats.Value / bar.Meter.BarLength.Value, 4);
        return new
        {
            bar.Number,
            Beats = timed.BeatTimes.Select(Ms),
            Names = bar.Chords.Select(c => c.Value.Name),
            Counts = Counts(bar).Select(p => new { At = At(p.Position), Word = p.Syllable, Beat = p.IsOnBeat }),
            Strokes = bar.Strums.Select(s => new { At = At(s.Start), Text = s.Value switch { Stroke.Down => "↓", Stroke.Up => "↑", _ => "×" } }),
            Sung = bar.Sung.Select(s => new { At = At(s.Start), Text = s.Value }),
        };
    }

    /// <summary>Beats and divisions; a quarter of a beat only where a syllable falls on one.</summary>
    private static IEnumerable<BarPlace> Counts(Bar bar)
    {
        var sung = bar.Sung.Select(s => s.Start).ToHashSet();
        return BarPlace.Grid(bar.Meter, bar.Meter.IsCompound ? 3 : 4)
            .Where(p => p.Syllable is not ("e" or "a") || sung.Contains(p.Position));
    }

    private static string Hole(HarpNote note) => note.Hole.ToString(CultureInfo.InvariantCulture) + (note.Bend > 0 ? "o" : new string('′', -note.Bend));

    private static double Ms(double seconds) => Math.Round(seconds, 3);

    private static string Fill(string template, Dictionary<string, string> values)
    {
        var text = new StringBuilder();
        foreach (var (part, index) in template.Split("[[").Select((p, i) => (p, i)))
        {
            var end = index == 0 ? -1 : part.IndexOf("]]", StringComparison.Ordinal);
            text.Append(index == 0 ? part : values[part[..end]] + part[(end + 2)..]);
        }
        return text.ToString();
    }

    private static string Resource(string name)
    {
        using var stream = typeof(PlayAlongPage).Assembly.GetManifestResourceStream("page/" + name)
            ?? throw new InvalidOperationException($"The page's part {name} is not in the program; the build left it out.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
