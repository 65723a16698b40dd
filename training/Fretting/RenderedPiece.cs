using Harkbook.Audio.Recordings;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Estimators.Keys;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.ReferencePitch;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Reading;
using Harkbook.Training.SecondInstrument;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>Made pieces as sound, and what Harkbook hears in them up to the chords. Kept in a folder, since listening takes longer than all else.</summary>
internal sealed class RenderedPiece(string folder, string[] fonts)
{
    private static readonly SampleRate Rate = SampleRate.FromHertz(22_050);

    public Hearing Hear(MadePiece piece, int index, int seed)
    {
        var path = Path.Combine(folder, $"{seed}-{index}.json");
        if (File.Exists(path))
            return HearingJson.Read(File.ReadAllText(path));
        Directory.CreateDirectory(folder);
        var hearing = Listen(Sound(piece, index, new Random(seed * 31 + index)), piece.Length);
        File.WriteAllText(path, HearingJson.Write(hearing));
        return hearing;
    }

    /// <summary>Two sampled guitars, our string models, and stiff strings that share nothing with those, in turn; half of them in a room.</summary>
    private Signal Sound(MadePiece piece, int index, Random random)
    {
        var off = Enumerable.Range(0, 6).Select(_ => 12 * (random.NextDouble() - 0.5)).ToArray();
        GuitarNote[] notes = [.. piece.Notes.Select(n => new GuitarNote(n.StringIndex, n.Midi, n.Onset, n.End, (int)(40 + 80 * n.Strength)))];
        var samples = ((index / 20 + index) % 4) switch
        {
            0 => new FontPlayer(fonts[0], folder).Guitar(notes, 24 + random.Next(2), piece.Length, off),
            1 => new FontPlayer(fonts[1], folder).Guitar(notes, 24 + random.Next(4), piece.Length, off),
            2 => Strings(notes, random, piece.Length, off),
            _ => Stiff(notes, random, piece.Length),
        };
        if (random.Next(2) == 0)
            NoteWeights.Room.Furnish(samples, random);
        var gain = 0.7f / (samples.Max(Math.Abs) + 1e-6f);
        return new(Rate, [.. samples.Select(x => x * gain)]);
    }

    private static float[] Strings(GuitarNote[] notes, Random random, double length, double[] off)
    {
        var set = (random.Next(2) == 0 ? StringSet.Steel : StringSet.Nylon) with { Sustain = Seconds.FromSeconds(4 + 6 * random.NextDouble()), PluckPlace = 0.1 + 0.2 * random.NextDouble() };
        var strings = Enumerable.Range(0, 6).Select(s => (IReadOnlyList<Pluck>)[.. notes.Where(n => n.String == s).Select(n => new Pluck(
            Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), Hertz.FromHertz(440 * Math.Pow(2, (n.Midi - 69 + off[s] / 100) / 12.0)), n.Velocity / 127.0))]).ToArray();
        return new StringInstrument(Rate, set, random.Next(1, 1000)).Sound(strings, Seconds.FromSeconds(length)).Channels[0];
    }

    private static float[] Stiff(GuitarNote[] notes, Random random, double length)
    {
        var samples = new float[(int)(length * Rate.Hertz)];
        var sound = new NoteWeights.StringSound(random);
        foreach (var note in notes)
            sound.Add(samples, new(note.Midi, note.Onset, note.End, note.String, note.Velocity));
        return samples;
    }

    private static Hearing Listen(Signal mono, double length)
    {
        var pitch = new ReferencePitchEstimator().Estimate(mono, default);
        using var scan = new NoteScan();
        SpectraScan.Run(mono, pitch.Best, [scan], null, default);
        var evidence = new SoundEvidence
        {
            ReferencePitch = pitch,
            HeardAbout = pitch.Best,
            Notes = scan.Posteriorgram(),
            Picking = scan.Picking,
            Pulse = new BeatEstimator().Hear(mono, default),
        };
        var claims = new Claims { Tuning = Music.Instruments.Strings.Tuning.Standard, Capo = Music.Instruments.Strings.Capo.None };
        return Reader.Read(new("made.wav", Rate, 1, Seconds.FromSeconds(length), new string('a', 64), "WAV"), evidence, claims);
    }
}
