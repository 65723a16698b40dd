using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Harkbook.Listening.Evaluation;

namespace Harkbook.App.Reports;

/// <summary>Scores as small tables, one row a recording; what the columns mean stands once below.</summary>
internal static class ScoreTable
{
    /// <summary>Says which mistake was made, so it stands only where one was.</summary>
    private const string WhereWrong = "Tempo level, where wrong";

    private static readonly (string Title, (string Measure, string Head, string Meaning)[] Columns)[] Groups =
    [
        ("Beats and tempo",
        [
            ("beat F", "beats", "beats within 70 ms, found and true weighed alike (F)"),
            ("beat continuity, right level", "level", "share of the beats followed at the right level"),
            ("beat continuity, any level", "anylevel", "the same where twice or half as fast, or off the beat, counts as right"),
            ("downbeat F", "bars", "bar lines within 70 ms (F)"),
            ("tempo within 4%", "tempo", "1 where within 4%"),
            ("tempo within 4% or an octave", "octaves", "1 where within 4%, or of twice, half, three times or a third"),
        ]),
        (WhereWrong,
        [
            ("tempo at twice the level", "twice", "1 where the tempo is heard twice as fast as it is felt"),
            ("tempo at half the level", "half", "1 where it is heard half as fast"),
            ("tempo at three times", "triple", "1 where it is heard three times as fast"),
            ("tempo at a third", "third", "1 where it is heard a third as fast"),
            ("tempo at three halves", "3/2", "1 where it is heard half as fast again"),
            ("tempo at two thirds", "2/3", "1 where it is heard two thirds as fast"),
            ("tempo right, beats halfway off", "offbeat", "1 where the tempo is right and the beats are heard halfway between"),
        ]),
        ("Key, chords and form",
        [
            ("key, weighted", "key", "1 right; part marks for a fifth up, the relative and the parallel key"),
            ("chord root", "root", "share of the time with the right root"),
            ("chord majmin", "majmin", "the same, and major or minor"),
            ("chord majmin with bass", "bass", "the same, and the note in the bass"),
            ("chord sevenths", "sevenths", "the right root and kind, sevenths included"),
            ("boundary F, 0.5 s", "form", "section borders within half a second (F)"),
        ]),
        ("Notes and guitar",
        [
            ("note onset F", "onsets", "notes with the right pitch, starting within 50 ms (F)"),
            ("note with offset F", "ends", "the same, and ending in time (F)"),
            ("frame F", "frames", "pitches sounding, moment by moment (F)"),
            ("reference pitch error, cents", "cents", "how far off the reference pitch is, in cents"),
            ("reference pitch within 3 cents", "pitch", "1 where within 3 cents"),
            ("tuning and capo, first choice", "tuning", "1 where tuning and capo are right"),
            ("string and fret", "strings", "share of the notes found that are on their string and fret"),
            ("string and fret, tuning given", "told", "the same where tuning and capo are told"),
        ]),
        ("With the guitar",
        [
            ("second instruments, just these", "kinds", "1 where just the right kinds of instrument, or none, are heard"),
            ("melody raw pitch", "melody", "share of its time with the pitch within 50 cents"),
            ("melody voicing recall", "there", "share of its time in which it is heard to sound"),
            ("melody voicing false alarm", "false", "share of its silence in which it is heard to sound (low is good)"),
            ("melody overall accuracy", "overall", "share of all time right in pitch, or in silence"),
            ("line note onset F", "notes", "its notes with the right pitch, starting within 50 ms (F)"),
            ("harp hole and breath", "holes", "share of the harmonica's notes with the right hole and breath"),
            ("harp key, first choice", "harp", "1 where the harmonica's key is right"),
        ]),
    ];

    /// <param name="explained">Whether what the columns mean stands below.</param>
    public static string Write(IReadOnlyList<(string Name, ImmutableArray<Measured> Scores)> sheets, bool explained = true)
    {
        var (tables, meanings) = (new StringBuilder(), new StringBuilder());
        var width = Math.Max(sheets.Max(s => s.Name.Length), Groups.Max(g => g.Title.Length)) + 2;
        foreach (var (title, all) in Groups.Append(("Other", Unknown(sheets))))
        {
            var columns = all.Where(c => sheets.Any(s => s.Scores.Any(m => m.Measure == c.Measure && (title != WhereWrong || m.Value > 0)))).ToArray();
            if (columns.Length == 0)
                continue;
            tables.Append(title.PadRight(width)).AppendLine(string.Concat(columns.Select(c => c.Head.PadLeft(9))));
            foreach (var (name, scores) in sheets)
                tables.Append(name.PadRight(width)).AppendLine(string.Concat(columns.Select(c => Cell(scores, c.Measure))));
            tables.AppendLine();
            foreach (var (_, head, meaning) in columns)
                meanings.AppendLine($"  {head,-9} {meaning}");
        }
        return (explained ? tables.Append(meanings) : tables).ToString();
    }

    /// <summary>Measures without a place above, under their own names, so that none is lost.</summary>
    private static (string Measure, string Head, string Meaning)[] Unknown(IEnumerable<(string Name, ImmutableArray<Measured> Scores)> sheets)
    {
        var known = Groups.SelectMany(g => g.Columns).Select(c => c.Measure);
        return [.. sheets.SelectMany(s => s.Scores).Select(m => m.Measure).Distinct().Except(known).Select((m, i) => (m, $"({i + 1})", m))];
    }

    private static string Cell(ImmutableArray<Measured> scores, string measure) =>
        scores.FirstOrDefault(m => m.Measure == measure) is { } found ? found.Value.ToString("0.000", CultureInfo.InvariantCulture).PadLeft(9) : "–".PadLeft(9);
}
