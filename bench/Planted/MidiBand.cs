using Harkbook.Demo;
using NAudio.Midi;

namespace Harkbook.Bench.Planted;

/// <summary>Writes what a made-up song's players play as a MIDI file: each string on a channel of its own, harmonica and voice on theirs.</summary>
internal static class MidiBand
{
    private const int Ticks = 960;
    private const int SteelGuitar = 25;
    private const int Harmonica = 22;
    private const int Voice = 53;

    public static void Write(string path, DemoTruth truth, int seed)
    {
        var chance = new Random(seed);
        var file = new MidiEventCollection(1, Ticks);
        var track = file.AddTrack();
        track.Add(new TempoEvent(500_000, 0));
        for (var channel = 1; channel <= 8; channel++)
            track.Add(new PatchChangeEvent(0, channel, channel <= 6 ? SteelGuitar : channel == 7 ? Harmonica : Voice));
        foreach (var note in truth.Notes)
        {
            var channel = note.StringIndex + 1 ?? (note.Part == DemoPart.Harp ? 7 : 8);
            var velocity = (note.StringIndex is null ? 84 : 78) + chance.Next(-10, 22);
            var (from, to) = (At(note.Onset.Value), Math.Max(At(note.Onset.Value) + 20, At(note.End.Value) - 2));
            track.Add(new NoteOnEvent(from, channel, note.Midi, velocity, (int)(to - from)));
            track.Add(new NoteEvent(to, channel, MidiCommandCode.NoteOff, note.Midi, 0));
        }
        track.Add(new MetaEvent(MetaEventType.EndTrack, 0, track.Max(e => e.AbsoluteTime) + 2 * Ticks));
        file.PrepareForExport();
        MidiFile.Export(path, file);
    }

    private static long At(double seconds) => (long)Math.Round(seconds * 2 * Ticks);
}
