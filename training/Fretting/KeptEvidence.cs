using System.Globalization;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>Says how the guitar of a recording is tuned, from its kept evidence beside it (NAME.evidence) with stiffness measured anew.</summary>
internal static class KeptEvidence
{
    public static async Task TellAsync(string path)
    {
        var kept = EvidenceFile.Read(Path.ChangeExtension(path, ".evidence"));
        var recording = await RecordingReader.InspectAsync(path);
        using var sound = await RecordingReader.StoreAsync(recording, SampleRate.FromHertz(22_050), null, default);
        var mono = sound.ToMono();
        var notes = new NotePicker(kept.Picking).Pick(kept.Notes);
        var watch = System.Diagnostics.Stopwatch.StartNew();
        var evidence = kept with { Stiffness = StiffnessScan.Of(mono, notes, kept.HeardAbout, default) };
        var measured = watch.Elapsed.TotalSeconds;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Path.GetFileNameWithoutExtension(path)}: {notes.Length} notes measured in {measured:0.00} s"));
        foreach (var c in Reader.Read(recording, evidence, new()).Tuning.Candidates.Take(3))
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {c.Confidence:0.00} {c.Value.Name ?? c.Value.Tuning.ToString()} capo {c.Value.Capo.Fret}: {c.Evidence}"));
    }
}
