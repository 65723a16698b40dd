using System.Diagnostics;
using Harkbook.Listening.Estimators.Notes;
using NAudio.Midi;

namespace Harkbook.Training.NoteWeights;

/// <summary>Renders notes with an instrument of a General MIDI font, by the programs fluidsynth and ffmpeg.</summary>
internal sealed class FontSound(string font, string folder)
{
    private const int TicksPerQuarter = 960;

    public float[] Render(IEnumerable<PlayedNote> notes, int program, double length)
    {
        var stem = Path.Combine(folder, "piece");
        Write(notes, program, length, stem + ".mid");
        Run("fluidsynth", "-q", "-ni", "-g", "0.5", "-R", "0", "-C", "0", "-r", $"{LogSpectrum.Rate.Hertz}", "-O", "float", "-F", stem + ".wav", font, stem + ".mid");
        Run("ffmpeg", "-v", "error", "-y", "-i", stem + ".wav", "-ac", "1", "-ar", $"{LogSpectrum.Rate.Hertz}", "-f", "f32le", stem + ".raw");
        var bytes = File.ReadAllBytes(stem + ".raw");
        var samples = new float[(int)(length * LogSpectrum.Rate.Hertz)];
        Buffer.BlockCopy(bytes, 0, samples, 0, Math.Min(bytes.Length / 4, samples.Length) * 4);
        return samples;
    }

    private static void Write(IEnumerable<PlayedNote> notes, int program, double length, string path)
    {
        var events = new MidiEventCollection(1, TicksPerQuarter);
        var track = events.AddTrack();
        track.Add(new TempoEvent(500_000, 0));
        for (var channel = 1; channel <= 7; channel++)
            track.Add(new PatchChangeEvent(0, channel, program));
        foreach (var note in notes)
        {
            track.Add(new NoteOnEvent(Ticks(note.Onset), note.StringIndex + 1, note.Midi, note.Velocity, 1));
            track.Add(new NoteEvent(Ticks(note.End), note.StringIndex + 1, MidiCommandCode.NoteOff, note.Midi, 0));
        }
        track.Add(new MetaEvent(MetaEventType.EndTrack, 0, Ticks(length)));
        events.PrepareForExport();
        MidiFile.Export(path, events);
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
