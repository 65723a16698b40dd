using Harkbook.Listening;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>How many of a reference annotation's own notes get the string that it names.</summary>
internal static class ReferenceTrial
{
    /// <summary>The same for notes that were heard.</summary>
    public static void RunHeard(string path, string hearingPath)
    {
        var truth = JamsReader.Read(path).Notes;
        var hearing = HearingJson.Read(File.ReadAllText(hearingPath));
        var offset = Cents.Between(Hertz.A440, hearing.ReferencePitch.Best).Value / 100;
        var match = NoteScores.Match(truth, [.. hearing.Notes.Select(n => new ScoredNote(n.Onset.Value, n.End.Value, n.Midi + offset))]);
        var found = Fretter.Find(hearing.Notes, new(Tuning.Standard, default));
        foreach (var group in StruckNotes.Of(hearing.Notes))
        {
            Console.WriteLine($"{group.Time,7:0.00} [{found.Positions[0]}] " + string.Join("  ", group.Notes.Select(i =>
                $"{hearing.Notes[i].Midi} ({hearing.Notes[i].End.Value - hearing.Notes[i].Onset.Value:0.00}s {hearing.Notes[i].Confidence:0.00}) {found.Strings[i]}:{found.Frets[i]} "
                + (Array.IndexOf(match, i) is >= 0 and var t ? found.Strings[i] == truth[t].StringIndex ? "" : $"! true {truth[t].StringIndex}:{truth[t].Midi - Tuning.Standard.Strings[truth[t].StringIndex!.Value].Midi:0}" : "not there"))));
        }
        foreach (var habit in new[] { 0.4, 0.6, 1 })
        {
            var tunings = new TuningEstimator(new() { TuningHabit = habit }).Estimate(hearing.Notes, hearing.Keys[0].Key.Best);
            Console.WriteLine($"habit {habit}: " + string.Join("; ", tunings.Candidates.Select(c => $"{c.Value.Name} {c.Value.Capo} {c.Confidence:0.00}")));
        }
        var matched = Enumerable.Range(0, truth.Length).Where(i => match[i] >= 0).ToArray();
        Console.WriteLine($"{matched.Count(i => found.Strings[match[i]] == truth[i].StringIndex) / (double)matched.Length:0.000} of {matched.Length} found");
    }

    public static void Run(string path, bool print)
    {
        var truth = JamsReader.Read(path).Notes.Where(n => n.StringIndex is not null).ToArray();
        var notes = truth.Select(n => new HeardNote((int)Math.Round(n.Midi), Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), 0.9, 0.5)).ToArray();
        var path2 = Fretter.Find([.. notes], new(Tuning.Standard, default));
        if (print)
        {
            foreach (var group in StruckNotes.Of([.. notes]))
                Console.WriteLine($"{group.Time,7:0.00}  " + string.Join("  ", group.Notes.Select(i => $"{notes[i].Midi} true {truth[i].StringIndex}:{notes[i].Midi - Tuning.Standard.Strings[truth[i].StringIndex!.Value].Midi} got {path2.Strings[i]}:{path2.Frets[i]}{(path2.Strings[i] == truth[i].StringIndex ? "" : " !")}")));
        }
        Console.WriteLine($"{path}: {truth.Where((n, i) => path2.Strings[i] == n.StringIndex).Count() / (double)truth.Length:0.000} of {truth.Length}");
    }
}
