using System.Collections.Immutable;
using System.IO.Compression;
using System.Runtime.InteropServices;
using Harkbook.Listening;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Training.BeatChecks;

/// <summary>The curves, bands and notes of one recording, deflated.</summary>
internal static class HeardFile
{
    public static void Write(string path, PulseSound sound, ImmutableArray<HeardNote> notes)
    {
        using var writer = new BinaryWriter(new DeflateStream(File.Create(path), CompressionLevel.Optimal));
        var steps = new ushort[sound.Curves.Frames * PulseEvidence.Width];
        sound.Curves.GiveSteps(steps);
        writer.Write(sound.Curves.Frames);
        writer.Write(sound.Span?.First ?? -1);
        writer.Write(sound.Span?.Last ?? -1);
        writer.Write(MemoryMarshal.AsBytes(steps.AsSpan()));
        writer.Write(MemoryMarshal.AsBytes(sound.Bands.Values.Span));
        writer.Write(notes.Length);
        foreach (var note in notes)
        {
            writer.Write(note.Midi);
            foreach (var value in new[] { note.Onset.Value, note.End.Value, note.Confidence, note.Strength })
                writer.Write(value);
        }
    }

    public static (PulseSound Sound, ImmutableArray<HeardNote> Notes) Read(string path)
    {
        using var reader = new BinaryReader(new DeflateStream(File.OpenRead(path), CompressionMode.Decompress));
        var (frames, first, last) = (reader.ReadInt32(), reader.ReadInt32(), reader.ReadInt32());
        var (steps, bands) = (new ushort[frames * PulseEvidence.Width], new ushort[frames * PulseBands.Count]);
        reader.BaseStream.ReadExactly(MemoryMarshal.AsBytes(steps.AsSpan()));
        reader.BaseStream.ReadExactly(MemoryMarshal.AsBytes(bands.AsSpan()));
        var curves = new PulseEvidence(frames);
        curves.TakeSteps(steps);
        ImmutableArray<HeardNote> notes = [.. Enumerable.Range(0, reader.ReadInt32()).Select(_ => new HeardNote(
            reader.ReadInt32(), Seconds.FromSeconds(reader.ReadDouble()), Seconds.FromSeconds(reader.ReadDouble()), reader.ReadDouble(), reader.ReadDouble()))];
        return (first < 0 ? PulseSound.None : new(curves, KeptBands.OfValues(bands), new(first, last)), notes);
    }
}
