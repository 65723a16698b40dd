using System.Diagnostics;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Signals;
using Harkbook.Units;
using NAudio.Midi;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Sounds notes with an instrument of a General MIDI font, by the program fluidsynth.</summary>
internal sealed class FontPlayer(string font, string folder)
{
    private const int TicksPerQuarter = 960;

    public string Folder => folder;

    public string Name => Path.GetFileNameWithoutExtension(font);

    /// <param name="off">How far each string is out of tune, in cents.</param>
    public float[] Guitar(IEnumerable<GuitarNote> notes, int program, double length, double[] off) =>
        Render(program, length, notes.Select(n => (n.String, n.Midi, n.Onset, n.End, n.Velocity, 0.0)), off, vibrato: false);

    public float[] Line(IEnumerable<LineNote> notes, int program, double length, double off) =>
        Render(program, length, notes.Select(n => (n.Voice, n.Midi, n.Onset, n.End, n.Velocity, n.Scoop)), [off, off, off], vibrato: true);

    private float[] Render(int program, double length, IEnumerable<(int Channel, int Midi, double Onset, double End, int Velocity, double Scoop)> notes, double[] off, bool vibrato)
    {
        var events = new MidiEventCollection(1, TicksPerQuarter);
        var track = events.AddTrack();
        track.Add(new TempoEvent(500_000, 0));
        for (var channel = 1; channel <= 6; channel++)
            track.Add(new PatchChangeEvent(0, channel, program));
        foreach (var (channel, midi, onset, end, velocity, scoop) in notes)
        {
            track.Add(new NoteOnEvent(Ticks(onset), channel + 1, midi, Math.Clamp(velocity, 1, 127), 1));
            track.Add(new NoteEvent(Ticks(end), channel + 1, MidiCommandCode.NoteOff, midi, 0));
            Wheel(track, channel + 1, onset, scoop, off[channel]);
            if (vibrato)
            {
                track.Add(new ControlChangeEvent(Ticks(onset), channel + 1, MidiController.Modulation, 0));
                if (end - onset > 0.5)
                    track.Add(new ControlChangeEvent(Ticks(onset + 0.3), channel + 1, MidiController.Modulation, 20 + velocity % 40));
            }
        }
        track.Add(new MetaEvent(MetaEventType.EndTrack, 0, Ticks(length)));
        events.PrepareForExport();
        var stem = Path.Combine(folder, "piece");
        MidiFile.Export(stem + ".mid", events);
        Run("fluidsynth", "-q", "-ni", "-g", "0.5", "-R", "0", "-C", "0", "-r", "22050", "-O", "s16", "-F", stem + ".wav", font, stem + ".mid");
        return Fitted(WaveFile.Read(stem + ".wav").ToMono(), length);
    }

    private static float[] Fitted(Signal sound, double length)
    {
        var samples = new float[(int)(length * sound.Rate.Hertz)];
        sound.Channels[0].AsSpan(0, Math.Min(sound.Length, samples.Length)).CopyTo(samples);
        return samples;
    }

    private static void Wheel(IList<MidiEvent> track, int channel, double onset, double scoop, double off)
    {
        for (var i = 0; i <= (scoop == 0 ? 0 : 10); i++)
        {
            var cents = scoop == 0 ? 0 : scoop * Math.Exp(-i * 0.01 / 0.035);
            track.Add(new PitchWheelChangeEvent(Ticks(onset + 0.01 * i), channel, 8192 + (int)Math.Clamp(8191 * (cents + off) / 200, -8192, 8191)));
        }
    }

    private static long Ticks(double seconds) => (long)Math.Round(seconds * 2 * TicksPerQuarter);

    private static void Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true, RedirectStandardOutput = true })
            ?? throw new InvalidOperationException($"{program} did not start.");
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"{program} ended with {process.ExitCode}.");
    }
}
