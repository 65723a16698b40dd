using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Reading;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;
using Harkbook.Units;

namespace Harkbook.Bench.Rereading;

/// <summary>
/// What one claim mends besides itself: each recording of a folder is read with nothing claimed and with one true claim of each kind, and both
/// readings are scored. A claimed key or chord is left out of the score; a claimed beat is one among its recording's.
/// </summary>
internal static class ClaimsAtWork
{
    private static readonly string[] Measures = ["beat F", "downbeat F", "key, weighted", "chord majmin", "chord sevenths", "string and fret"];

    private sealed record Row(string Kind, string Measure, double Before, double After, double Weight);

    /// <summary>Prints a table in Markdown: one row a kind of claim, one column a measure, "before → after" over the recordings that have both.</summary>
    public static async Task<int> WriteAsync(IEnumerable<string> folders, TextWriter output)
    {
        foreach (var folder in folders)
        {
            var rows = new List<Row>();
            foreach (var kept in EvidenceFolder.Kept(folder))
                rows.AddRange(Of(await EvidenceFolder.ReadAsync(kept, Claims.None), AnnotationFile.Read(Path.ChangeExtension(kept, ".jams"))));
            output.WriteLine($"\n{Path.GetFileName(Path.TrimEndingDirectorySeparator(folder))}\n\n| one claim | {string.Join(" | ", Measures)} |\n|---|{
                string.Concat(Measures.Select(_ => "---|"))}");
            foreach (var kind in rows.GroupBy(r => r.Kind))
                output.WriteLine($"| {kind.Key} | {string.Join(" | ", Measures.Select(m => Cell([.. kind.Where(r => r.Measure == m)])))} |");
        }
        return 0;
    }

    private static IEnumerable<Row> Of(Hearing nothing, Annotation truth)
    {
        foreach (var (kind, claims, judged) in True(nothing, truth))
        {
            var (before, after) = (Evaluator.Score(nothing, judged), Evaluator.Score(Reader.Again(nothing, claims), judged));
            foreach (var (b, a) in before.Join(after, b => b.Measure, a => a.Measure, (b, a) => (b, a)))
                yield return new(kind, b.Measure, b.Value, a.Value, b.Weight);
        }
    }

    /// <summary>The true claims that a recording's truth can give, each with the truth that is left to judge by.</summary>
    private static IEnumerable<(string Kind, Claims Claims, Annotation Judged)> True(Hearing heard, Annotation truth)
    {
        var none = Claims.None;
        double[] downbeats = [.. truth.Downbeats];
        if (truth.Tempo is { } tempo)
            yield return ("the tempo", none with { Tempo = TempoRange.About(tempo) }, truth);
        if (downbeats.Length > 2)
        {
            var count = truth.Beats.Count(b => b.Time >= downbeats[0] && b.Time < downbeats[^1]) / (downbeats.Length - 1);
            yield return ("the meter", none with { Meter = Meter.Of(count, 4) }, truth);
            var middle = Seconds.FromSeconds(downbeats[downbeats.Length / 2]);
            yield return ("where one bar starts", none with { Beats = [new(middle, 1)] }, truth);
        }
        if (truth.Keys.Length == 1 && Key.TryParse(truth.Keys[0].Label, out var key))
            yield return ("the key", none with { Keys = [new(default, heard.Recording.Length, key)] }, truth with { Keys = [] });
        if (truth.Notes.Any(n => n.StringIndex is not null))
            yield return ("the tuning", none with { Tuning = truth.Tuning ?? Tuning.Standard, Capo = Capo.At(truth.Capo ?? 0) }, truth);
        if (WrongChord(heard, truth) is { } span && HarteLabel.TryRead(span.Label, out var chord))
        {
            var claim = new ChordClaim(Seconds.FromSeconds(span.Start), Seconds.FromSeconds(span.End), chord);
            yield return ("one chord", none with { Chords = [claim] }, truth with { Chords = truth.Chords.Remove(span) });
        }
    }

    /// <summary>The longest chord of which most time is heard wrong.</summary>
    private static AnnotatedSpan? WrongChord(Hearing heard, Annotation truth)
    {
        ImmutableArray<AnnotatedSpan> spans = [.. heard.Chords.Select(c => new AnnotatedSpan(c.Start.Value, c.End.Value, HarteLabel.Write(c.Chord.Best)))];
        return truth.Chords.Where(c => IsWrong(ChordScores.RecallParts([c], spans, ChordComparison.MajorMinor))).MaxBy(c => c.End - c.Start);

        static bool IsWrong((double Right, double Judged) parts) => parts.Right < parts.Judged / 2;
    }

    private static string Cell(Row[] rows)
    {
        if (rows.Length == 0)
            return "";
        var weight = rows.Sum(r => r.Weight);
        return string.Create(CultureInfo.InvariantCulture,
            $"{rows.Sum(r => r.Before * r.Weight) / weight:.000} → {rows.Sum(r => r.After * r.Weight) / weight:.000} ({rows.Length})");
    }
}
