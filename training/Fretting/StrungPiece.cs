using Harkbook.Audio.Signals;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.ReferencePitch;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>Pieces on strings from formulas, and what is heard in them. Evidence is kept in a folder, since listening takes longer than all else.</summary>
internal sealed class StrungPiece(string folder)
{
    private static readonly SampleRate Rate = SampleRate.FromHertz(22_050);

    /// <summary>As read up to the chords, in whichever tuning.</summary>
    public Hearing Hear(Func<(MadePiece Piece, ThrownGuitar Guitar, float[] Sound)> make, double length, int index, int seed)
    {
        var path = Path.Combine(folder, $"strung-{seed}-{index}.evidence");
        if (!File.Exists(path))
        {
            Directory.CreateDirectory(folder);
            EvidenceFile.Write(Listen(new Signal(Rate, make().Sound)), path);
        }
        var claims = new Claims { Tuning = Tuning.Standard, Capo = Capo.None };
        return Reader.Read(new("made.wav", Rate, 1, Seconds.FromSeconds(length), new string('a', 64), "WAV"), EvidenceFile.Read(path), claims);
    }

    private static SoundEvidence Listen(Signal mono)
    {
        var pitch = new ReferencePitchEstimator().Estimate(mono, default);
        using var scan = new NoteScan();
        SpectraScan.Run(mono, pitch.Best, [scan], null, default);
        var notes = scan.Posteriorgram();
        return new()
        {
            ReferencePitch = pitch,
            HeardAbout = pitch.Best,
            Notes = notes,
            Picking = scan.Picking,
            Pulse = new BeatEstimator().Hear(mono, default),
            Stiffness = StiffnessScan.Of(mono, new NotePicker(scan.Picking).Pick(notes), pitch.Best, default),
        };
    }
}
