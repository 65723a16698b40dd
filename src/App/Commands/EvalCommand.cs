using Harkbook.Jobs.Files;
using System.Collections.Immutable;
using System.CommandLine;
using System.Text.Json;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Proposing;

namespace Harkbook.App.Commands;

internal static class EvalCommand
{
    private static readonly JsonSerializerOptions CamelCase = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    private static readonly string[] AnnotationEndings = [".jams", ".mid", ".midi", ".lab", SongFolder.Ending];

    public static Command Create()
    {
        var folder = new Argument<string>("folder")
        {
            Description = "A folder of recordings, each with a .jams, .mid or .lab file, or its true song file, of the same name beside it",
        };
        var json = new Option<bool>("--json") { Description = "Print the scores as JSON" };
        var afresh = new Option<bool>("--afresh") { Description = "Listen again even to recordings that were heard before" };
        var classical = new Option<bool>("--classical") { Description = "Listen without the trained networks where rules can stand in for them, to compare" };
        var command = new Command("eval", "Score what Harkbook hears against reference annotations, by the published measures")
        {
            folder, json, afresh, classical,
        };
        command.SetAction(async (parsed, ct) =>
        {
            var sheets = new List<(string Name, ImmutableArray<Measured> Scores)>();
            var judged = new List<JudgedEstimate>();
            foreach (var (recording, annotation) in Pairs(parsed.GetRequiredValue(folder)))
            {
                var hearing = await WatchedEars.HearAsync(recording, parsed.GetValue(afresh), ct, classical: parsed.GetValue(classical));
                var draft = SongProposer.Propose(hearing, Path.GetFileNameWithoutExtension(recording), Path.GetFileName(recording));
                if (Path.GetExtension(annotation) == SongFolder.Ending)
                {
                    sheets.Add((Path.GetFileName(recording), DraftScores.Score(draft, SongOpening.Open(annotation, withHints: false).Song)));
                    continue;
                }
                var truth = AnnotationFile.Read(annotation);
                sheets.Add((Path.GetFileName(recording), [.. Evaluator.Score(hearing, truth), .. DraftScores.Score(draft, truth)]));
                judged.AddRange(Sureness.Judge(hearing, truth));
            }
            if (sheets.Count > 1 || parsed.GetValue(json))
                sheets.Add(("all, mean", Evaluator.Mean(sheets.Select(s => s.Scores))));
            var sureness = Sureness.Gather(judged);
            Console.Out.Write(parsed.GetValue(json) ? Json(sheets, sureness) : ScoreTable.Write(sheets) + SurenessTable.Write(sureness));
            return 0;
        });
        return command;
    }

    private static List<(string Recording, string Annotation)> Pairs(string folder)
    {
        if (File.Exists(folder))
            throw new UserException($"{folder}: this is a file. Give the folder that holds recordings with annotations beside them.");
        if (!Directory.Exists(folder))
            throw new UserException($"{folder}: there is no such folder. Give a folder of recordings with annotations beside them.");
        var files = Directory.GetFiles(folder).Order(StringComparer.Ordinal).ToArray();
        var annotations = files.Where(f => AnnotationEndings.Contains(Path.GetExtension(f).ToLowerInvariant())).ToArray();
        var pairs = annotations
            .Select(a => (Recording: files.FirstOrDefault(f => f != a && !annotations.Contains(f)
                && Path.GetFileNameWithoutExtension(f) == Path.GetFileNameWithoutExtension(a)), Annotation: a))
            .Where(p => p.Recording is not null)
            .Select(p => (p.Recording!, p.Annotation))
            .ToList();
        return pairs.Count > 0
            ? pairs
            : throw new UserException($"{folder}: holds no recording with an annotation of the same name (song.wav with song.jams, song.mid, song.lab "
                + "or song.hark).");
    }

    private static string Json(List<(string Name, ImmutableArray<Measured> Scores)> sheets, ImmutableArray<Reliability> sureness)
    {
        var root = sheets.ToDictionary(s => s.Name, object (s) => s.Scores.ToDictionary(m => m.Measure, m => Math.Round(m.Value, 5)));
        root["how sure"] = sureness.Select(r => new { r.Kind, r.From, r.To, Right = Math.Round(r.Share, 5), r.Count });
        return JsonSerializer.Serialize(root, CamelCase) + "\n";
    }
}
