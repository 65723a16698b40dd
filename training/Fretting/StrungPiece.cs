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

/// <summary>Pieces on strings from formulas, and what is heard in them. It is kept in a folder, since listening takes longer than all else.</summary>
internal sealed class StrungPiece(string folder)
{
    private static readonly SampleRate Rate = SampleRate.FromHertz(22_050);

    /// <summary>Whatever the tuning, since notes and key are read before it.</summary>
    public HeardStrings Hear(Func<(MadePiece Piece, ThrownGuitar Guitar, float[] Sound)> make, double length, string name)
    {
        var path = Path.Combine(folder, $"{name}.strung");
        if (File.Exists(path))
            return HeardStrings.Read(path);
        Directory.CreateDirectory(folder);
        var claims = new Claims { Tuning = Tuning.Standard, Capo = Capo.None };
        var evidence = Listen(new Signal(Rate, make().Sound));
        var hearing = Reader.Read(new("made.wav", Rate, 1, Seconds.FromSeconds(length), new string('a', 64), "WAV"), evidence, claims);
        var heard = new HeardStrings(hearing.Notes, evidence.Stiffness, hearing.Keys[0].Key.Best);
        heard.Write(path);
        return heard;
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
