using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Bench.Rereading;
using Harkbook.Listening;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Proposing;
using Harkbook.Listening.Reading;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.Bench.Drafts;

/// <summary>
/// Drafts songs from kept evidence (NAME.evidence) and scores them against the true songs (NAME.hark) or annotations (NAME.jams) beside it. The drafts
/// go into the folder that the environment names as DRAFTS.
/// </summary>
internal static class DraftFolder
{
    /// <param name="told">Whether tuning, capo and bars are told, so that only what the hands do is judged.</param>
    public static async Task<int> ScoreAsync(IEnumerable<string> folders, bool told, TextWriter output)
    {
        foreach (var folder in folders)
        {
            var sheets = new List<ImmutableArray<Measured>>();
            foreach (var kept in EvidenceFolder.Kept(folder))
            {
                var name = Path.GetFileNameWithoutExtension(kept);
                var (song, jams) = (Path.ChangeExtension(kept, ".hark"), Path.ChangeExtension(kept, ".jams"));
                var truth = File.Exists(song) ? SongText.Parse(await File.ReadAllTextAsync(song), song).Song : null;
                var notes = File.Exists(jams) ? AnnotationFile.Read(jams) : null;
                var hearing = await EvidenceFolder.ReadAsync(kept, told ? Claimed(truth, notes) : Claims.None);
                var draft = SongProposer.Propose(hearing, name, Path.GetFileName(hearing.Recording.Path));
                if (Environment.GetEnvironmentVariable("DRAFTS") is { } into)
                    await File.WriteAllTextAsync(Path.Combine(into, name + ".hark"), SongText.Write(draft));
                sheets.Add([.. truth is null ? [] : DraftScores.Score(draft, truth), .. notes is null ? [] : DraftScores.Score(draft, notes)]);
                Write(output, name, sheets[^1]);
            }
            Write(output, $"{folder}, mean", Evaluator.Mean(sheets));
        }
        return 0;
    }

    private static Claims Claimed(Song? truth, Annotation? notes) =>
        truth is not null ? SongClaims.Of(truth) with { Chords = [], Keys = [], Borders = [] }
        : Claims.None with { Tuning = notes?.Tuning ?? Tuning.Standard, Capo = Capo.At(notes?.Capo ?? 0) };

    private static void Write(TextWriter output, string name, ImmutableArray<Measured> scores)
    {
        output.WriteLine(name);
        foreach (var score in scores)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {score.Measure,-40} {score.Value:0.000}"));
    }
}
