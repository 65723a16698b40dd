using System.Globalization;
using System.Text;
using System.Text.Json;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Engraving;

namespace Harkbook.App.Reports;

/// <summary>All that a harmonica gives, as a chart in plain text.</summary>
internal static class HolesReport
{
    public static string Write(Harmonica harp)
    {
        var text = new StringBuilder();
        text.AppendLine($"harmonica in {harp.Name}{(harp.Layout.Name == HarpLayout.Usual ? ", " + HarpLayout.Usual : "")}").AppendLine();
        foreach (var (label, row) in Rows(harp))
            text.Append($"{label,-12}").AppendLine(string.Concat(row.Select(cell => $"{cell,-5}")).TrimEnd());
        text.AppendLine();
        text.AppendLine($"positions   {string.Join(", ", Enumerable.Range(1, 12).Select(p => $"{OrdinalText.Of(p)} {harp.KeyInPosition(p)}"))}");
        foreach (var triad in harp.Triads().Where(t => !t.Runs.IsEmpty))
            text.AppendLine($"one breath  {triad.Chord,-6} {string.Join(", ", triad.Runs)}");
        var lacking = string.Join(", ", harp.TriadsOutOfReach());
        if (lacking.Length > 0)
            text.AppendLine($"never       {lacking}: the notes are there, but not on neighbouring holes of one breath");
        return text.ToString();
    }

    public static string Json(IEnumerable<Harmonica> harps) => JsonSerializer.Serialize(
        harps.Select(h => new
        {
            name = h.Name,
            key = h.Key.ToString(),
            octave = h.Octave,
            layout = h.Layout.Name,
            source = h.Layout.Source,
            notes = h.AllNotes.Select(n => new { note = n.ToString(), pitch = h.PitchOf(n).ToString() }),
            positions = Enumerable.Range(1, 12).Select(p => h.KeyInPosition(p).ToString()),
            oneBreath = h.Triads().Where(t => !t.Runs.IsEmpty).Select(t => new { chord = t.Chord.ToString(), holes = t.Runs.Select(r => r.ToString()) }),
            never = h.TriadsOutOfReach().Select(c => c.ToString()),
        }),
        JsonLayout.Readable) + "\n";

    private static IEnumerable<(string Label, string[] Cells)> Rows(Harmonica harp)
    {
        for (var deep = 2; deep >= 1; deep--)
            if (Row(harp, n => n.Breath == Breath.Blow && n.Bend == -deep) is { } bent)
                yield return ($"blow {new string('\'', deep)}", bent);
        if (Row(harp, n => n.Bend > 0 && n.Breath == Breath.Blow) is { } over)
            yield return ("blow o", over);
        if (Row(harp, n => n.Slide && n.Breath == Breath.Blow) is { } slid)
            yield return ("blow <", slid);
        yield return ("blow +", Row(harp, n => n == new HarpNote(n.Hole, Breath.Blow))!);
        yield return ("hole", [.. Enumerable.Range(1, harp.Holes).Select(h => h.ToString(CultureInfo.InvariantCulture))]);
        yield return ("draw -", Row(harp, n => n == new HarpNote(n.Hole, Breath.Draw))!);
        if (Row(harp, n => n.Slide && n.Breath == Breath.Draw) is { } drawnSlid)
            yield return ("draw <", drawnSlid);
        if (Row(harp, n => n.Bend > 0 && n.Breath == Breath.Draw) is { } overDrawn)
            yield return ("draw o", overDrawn);
        for (var deep = 1; deep <= 4; deep++)
            if (Row(harp, n => n.Breath == Breath.Draw && n.Bend == -deep) is { } bent)
                yield return ($"draw {new string('\'', deep)}", bent);
        yield return ("blown pairs", Pairs(harp, Breath.Blow));
        yield return ("drawn pairs", Pairs(harp, Breath.Draw));
    }

    /// <summary>Null when no hole has such a note.</summary>
    private static string[]? Row(Harmonica harp, Func<HarpNote, bool> which)
    {
        var cells = Enumerable.Range(1, harp.Holes)
            .Select(hole => harp.AllNotes.Where(n => n.Hole == hole && which(n)).Select(n => harp.PitchOf(n).ToString()).FirstOrDefault() ?? "").ToArray();
        return cells.Any(c => c.Length > 0) ? cells : null;
    }

    /// <summary>The interval of each hole with the next.</summary>
    private static string[] Pairs(Harmonica harp, Breath breath) =>
        [.. Enumerable.Range(1, harp.Holes - 1).Select(hole => harp.Together(breath, hole, hole + 1).Pitches)
            .Select(p => Interval.Between(p[0], p[1]).ToString())];
}
