using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Checks;

/// <summary>The evidence of NAME.wav, kept as NAME.evidence (as bench keeps it) until someone deletes it, since hearing takes most of the time, and read anew.</summary>
internal static class KeptHearing
{
    private const string Ending = ".evidence";

    public static Hearing Read(string stem) => Reader.Read(RecordingReader.InspectAsync(stem + ".wav").GetAwaiter().GetResult(), EvidenceOf(stem), Claims.None);

    /// <summary>Its notes alone, where nothing else that a reading makes is asked for.</summary>
    public static Hearing Notes(string stem)
    {
        var evidence = EvidenceOf(stem);
        return new()
        {
            Recording = RecordingReader.InspectAsync(stem + ".wav").GetAwaiter().GetResult(),
            ReferencePitch = evidence.ReferencePitch,
            Tempo = new(new Candidate<double>(0, 0)),
            Meter = new(new Candidate<Meter>(Meter.CommonTime, 0)),
            Beats = [], Keys = [], Chords = [], Sections = [],
            Notes = new NotePicker(evidence.Picking).Pick(evidence.Notes),
            Tuning = new(new Candidate<HeardTuning>(new(Tuning.Standard, Capo.None, null), 0)),
            Evidence = evidence,
        };
    }

    public static async Task MakeAsync(string stem)
    {
        var evidence = await new Listener().GatherAsync(await RecordingReader.InspectAsync(stem + ".wav"), null, default);
        EvidenceFile.Write(evidence, stem + ".part");
        File.Move(stem + ".part", stem + Ending, overwrite: true);
    }

    public static bool Exists(string stem) => File.Exists(stem + Ending);

    private static SoundEvidence EvidenceOf(string stem) => EvidenceFile.Read(stem + Ending);
}
