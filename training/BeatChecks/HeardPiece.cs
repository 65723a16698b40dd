using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.ReferencePitch;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;
using Harkbook.Units;

namespace Harkbook.Training.BeatChecks;

/// <summary>
/// What is heard of one recording before beats are decided, and its true beats. Evidence and notes are kept beside the recording, since listening
/// takes longer than all else.
/// </summary>
internal sealed record HeardPiece(string Name, PulseSound Sound, ImmutableArray<HeardNote> Notes, ImmutableArray<AnnotatedBeat> Truth)
{
    /// <summary>The beat network's weights, to compare others with those that ship; null for these.</summary>
    public static string? Weights { get; set; }

    /// <param name="wave">NAME.wav, with NAME.jams beside it. What is heard is kept in NAME.pulse and NAME.notes, by other weights in NAME.WEIGHTS.pulse.</param>
    /// <param name="withNotes">Hearing notes takes most of the time.</param>
    public static async Task<HeardPiece> OfAsync(string wave, bool withNotes)
    {
        var (pulse, notes) = (Path.ChangeExtension(wave, Weights is null ? ".pulse" : $".{Path.GetFileNameWithoutExtension(Weights)}.pulse"), Path.ChangeExtension(wave, ".notes"));
        var recording = await RecordingReader.InspectAsync(wave, default);
        var mono = await RecordingReader.ReadAsync(recording, PulseBands.Rate, mono: true, progress: null, default);
        if (!File.Exists(pulse))
            WritePulse(pulse, mono);
        if (withNotes && !File.Exists(notes))
            WriteNotes(notes, NoteScan.NotesOf(mono, new ReferencePitchEstimator().Estimate(mono, default).Best, default).Notes);
        return new(Path.GetFileNameWithoutExtension(wave), new(ReadPulse(pulse), KeptBands.Of(new PulseBands(mono), default), SoundingSpan.Of(mono)),
            withNotes ? ReadNotes(notes) : [], JamsReader.Read(Path.ChangeExtension(wave, ".jams")).Beats);
    }

    private static void WritePulse(string path, Signal mono)
    {
        using var network = Weights is null ? PulseNetwork.Shipped() : new PulseNetwork(File.ReadAllBytes(Weights));
        var evidence = network.Weigh(new PulseBands(mono), default);
        using var writer = new BinaryWriter(File.Create(path));
        writer.Write(evidence.Frames);
        foreach (var values in Curves(evidence))
            writer.Write(MemoryMarshal.AsBytes(values.AsSpan()));
        writer.Write(MemoryMarshal.AsBytes(MemoryMarshal.CreateReadOnlySpan(ref evidence.Meter[0, 0], evidence.Meter.Length)));
        writer.Write(MemoryMarshal.AsBytes(MemoryMarshal.CreateReadOnlySpan(ref evidence.Tempo[0, 0], evidence.Tempo.Length)));
    }

    private static PulseEvidence ReadPulse(string path)
    {
        using var reader = new BinaryReader(File.OpenRead(path));
        var evidence = new PulseEvidence(reader.ReadInt32());
        foreach (var values in Curves(evidence))
            reader.BaseStream.ReadExactly(MemoryMarshal.AsBytes(values.AsSpan()));
        reader.BaseStream.ReadExactly(MemoryMarshal.AsBytes(MemoryMarshal.CreateSpan(ref evidence.Meter[0, 0], evidence.Meter.Length)));
        reader.BaseStream.ReadExactly(MemoryMarshal.AsBytes(MemoryMarshal.CreateSpan(ref evidence.Tempo[0, 0], evidence.Tempo.Length)));
        return evidence;
    }

    private static void WriteNotes(string path, ImmutableArray<HeardNote> notes)
    {
        using var writer = new BinaryWriter(File.Create(path));
        writer.Write(notes.Length);
        foreach (var note in notes)
        {
            writer.Write(note.Midi);
            foreach (var value in new[] { note.Onset.Value, note.End.Value, note.Confidence, note.Strength })
                writer.Write(value);
        }
    }

    private static ImmutableArray<HeardNote> ReadNotes(string path)
    {
        using var reader = new BinaryReader(File.OpenRead(path));
        return [.. Enumerable.Range(0, reader.ReadInt32()).Select(_ => new HeardNote(
            reader.ReadInt32(), Seconds.FromSeconds(reader.ReadDouble()), Seconds.FromSeconds(reader.ReadDouble()), reader.ReadDouble(), reader.ReadDouble()))];
    }

    private static IEnumerable<float[]> Curves(PulseEvidence evidence) => [evidence.Beat, evidence.Downbeat, evidence.Change];
}
