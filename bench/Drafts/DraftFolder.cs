using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Proposing;
using Harkbook.Listening.Reading;
using Harkbook.Music.Songs;

namespace Harkbook.Bench.Drafts;

/// <summary>Drafts songs from kept evidence (NAME.evidence) and scores them against the true songs beside it (NAME.hark).</summary>
internal static class DraftFolder
{
    private static readonly string[] Endings = [".wav", ".flac", ".ogg"];

    /// <param name="told">Whether tuning, capo and bars are told, so that only what the hands do is judged.</param>
    public static async Task<int> ScoreAsync(IEnumerable<string> folders, bool told, TextWriter output)
    {
        foreach (var folder in folders)
        {
            var sheets = new List<ImmutableArray<Measured>>();
            foreach (var kept in Directory.GetFiles(folder, "*.evidence").Order(StringComparer.Ordinal))
            {
                var truth = SongText.Parse(await File.ReadAllTextAsync(Path.ChangeExtension(kept, ".hark")), kept).Song!;
                var recording = await RecordingReader.InspectAsync(Endings.Select(e => Path.ChangeExtension(kept, e)).First(File.Exists), default);
                var claims = told ? SongClaims.Of(truth) with { Chords = [], Keys = [], Borders = [] } : Claims.None;
                var hearing = Reader.Read(recording, EvidenceFile.Read(kept), claims);
                var draft = SongProposer.Propose(hearing, truth.Title, Path.GetFileName(recording.Path));
                await File.WriteAllTextAsync(Path.Combine(Path.GetTempPath(), Path.GetFileNameWithoutExtension(kept) + ".draft.hark"), SongText.Write(draft));
                sheets.Add(DraftScores.Score(draft, truth));
                Write(output, Path.GetFileNameWithoutExtension(kept), sheets[^1]);
            }
            Write(output, $"{folder}, mean", Evaluator.Mean(sheets));
        }
        return 0;
    }

    private static void Write(TextWriter output, string name, ImmutableArray<Measured> scores)
    {
        output.WriteLine(name);
        foreach (var score in scores)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {score.Measure,-40} {score.Value:0.000}"));
    }
}
