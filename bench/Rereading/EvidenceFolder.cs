using System.Collections.Immutable;
using System.Text.Encodings.Web;
using System.Text.Json;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Reading;

namespace Harkbook.Bench.Rereading;

/// <summary>
/// Recordings whose evidence is kept beside them, so that another way to read it is judged in moments. The evidence is of the program that heard it:
/// where a network or a measurement changes, it must be heard again (delete the .evidence files).
/// </summary>
internal static class EvidenceFolder
{
    private const string Ending = ".evidence";

    private static readonly JsonSerializerOptions Readable = new()
    {
        WriteIndented = true, IndentSize = 1, PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static async Task<int> HearAsync(IEnumerable<string> folders)
    {
        foreach (var recording in folders.SelectMany(f => Directory.GetFiles(f, "*.jams")).Order().Select(RecordingBeside).OfType<string>())
        {
            var kept = KeptBeside(recording);
            if (File.Exists(kept))
                continue;
            Console.Error.WriteLine(recording);
            EvidenceFile.Write(await new Listener().GatherAsync(await RecordingReader.InspectAsync(recording, default), null, default), kept);
        }
        return 0;
    }

    public static async Task<int> ScoreAsync(IEnumerable<string> folders, TextWriter output)
    {
        var all = new Dictionary<string, object>();
        foreach (var folder in folders)
        {
            var sheets = new List<(string Name, ImmutableArray<Measured> Scores)>();
            var judged = new List<JudgedEstimate>();
            foreach (var kept in Kept(folder))
            {
                var hearing = await ReadAsync(kept, Claims.None);
                var truth = AnnotationFile.Read(Path.ChangeExtension(kept, ".jams"));
                sheets.Add((Path.GetFileNameWithoutExtension(kept), Evaluator.Score(hearing, truth)));
                judged.AddRange(Listening.Evaluation.Sureness.Judge(hearing, truth));
            }
            sheets.Add(("all, mean", Evaluator.Mean(sheets.Select(s => s.Scores))));
            var scores = sheets.ToDictionary(s => s.Name, object (s) => s.Scores.ToDictionary(m => m.Measure, m => Math.Round(m.Value, 5)));
            scores["how sure"] = Listening.Evaluation.Sureness.Gather(judged)
                .Select(r => new { r.Kind, r.From, r.To, Right = Math.Round(r.Share, 5), r.Count });
            all[Path.GetFileName(Path.TrimEndingDirectorySeparator(folder))] = scores;
        }
        output.WriteLine(JsonSerializer.Serialize(all, Readable));
        return 0;
    }

    /// <summary>The evidence that is kept in a folder.</summary>
    public static IEnumerable<string> Kept(string folder) => Directory.GetFiles(folder, "*" + Ending).Order();

    /// <summary>What is read from kept evidence.</summary>
    /// <exception cref="FileNotFoundException">The recording doesn't lie beside it.</exception>
    public static async Task<Hearing> ReadAsync(string kept, Claims claims)
    {
        var sound = RecordingBeside(kept) ?? throw new FileNotFoundException("The recording doesn't lie beside its evidence.", kept);
        return Reader.Read(await RecordingReader.InspectAsync(sound, default), EvidenceFile.Read(kept), claims);
    }

    /// <summary>Where the evidence of a recording is kept.</summary>
    public static string KeptBeside(string recording) => Path.ChangeExtension(recording, Ending);

    /// <summary>The recording of the same name; null where there is none.</summary>
    public static string? RecordingBeside(string path) =>
        new[] { ".wav", ".flac", ".ogg" }.Select(e => Path.ChangeExtension(path, e)).FirstOrDefault(File.Exists);
}
