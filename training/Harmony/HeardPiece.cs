using System.Collections.Immutable;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;
using Harkbook.Units;

namespace Harkbook.Training.Harmony;

/// <summary>
/// What chords and keys are read from, and the truth. Notes and beats are kept beside the recording (NAME.heard), since hearing them takes longer
/// than all else.
/// </summary>
internal sealed record HeardPiece(string Name, NotePosteriorgram Notes, ImmutableArray<HeardBeat> Beats, Seconds Length, Annotation Truth)
{
    /// <param name="wave">NAME.wav, with NAME.jams beside it.</param>
    public static async Task<HeardPiece> OfAsync(string wave)
    {
        var kept = Path.ChangeExtension(wave, ".heard");
        if (!File.Exists(kept))
            await HearAsync(wave, kept);
        return Read(kept, Path.GetFileNameWithoutExtension(wave), AnnotationFile.Read(Path.ChangeExtension(wave, ".jams")));
    }

    private static async Task HearAsync(string wave, string kept)
    {
        var recording = await RecordingReader.InspectAsync(wave, default);
        var hearing = await new Listener().ListenAsync(recording, null, default);
        Write(kept + ".part", hearing.Evidence.Notes, hearing.Beats, recording.Length);
        File.Move(kept + ".part", kept);
    }

    private static void Write(string path, NotePosteriorgram notes, ImmutableArray<HeardBeat> beats, Seconds length)
    {
        using var writer = new BinaryWriter(File.Create(path));
        writer.Write(length.Value);
        writer.Write(beats.Length);
        foreach (var beat in beats)
        {
            writer.Write(beat.Time.Value);
            writer.Write(beat.PositionInBar);
            writer.Write(beat.Confidence);
        }
        writer.Write(notes.Hop.Value);
        writer.Write(notes.LowestMidi);
        WriteMatrix(writer, notes.Sounding);
        WriteMatrix(writer, notes.Onset);
    }

    private static HeardPiece Read(string path, string name, Annotation truth)
    {
        using var reader = new BinaryReader(new BufferedStream(File.OpenRead(path), 1 << 20));
        var length = Seconds.FromSeconds(reader.ReadDouble());
        ImmutableArray<HeardBeat> beats = [.. Enumerable.Range(0, reader.ReadInt32())
            .Select(_ => new HeardBeat(Seconds.FromSeconds(reader.ReadDouble()), reader.ReadInt32(), reader.ReadDouble()))];
        var (hop, lowest) = (Seconds.FromSeconds(reader.ReadDouble()), reader.ReadInt32());
        return new(name, new(hop, lowest, ReadMatrix(reader), ReadMatrix(reader)), beats, length, truth);
    }

    private static void WriteMatrix(BinaryWriter writer, PosteriorMatrix matrix)
    {
        writer.Write(matrix.Frames);
        writer.Write(matrix.Pitches);
        for (var f = 0; f < matrix.Frames; f++)
        {
            for (var p = 0; p < matrix.Pitches; p++)
                writer.Write((ushort)MathF.Round(matrix[f, p] * ushort.MaxValue));
        }
    }

    private static PosteriorMatrix ReadMatrix(BinaryReader reader)
    {
        var matrix = new PosteriorMatrix(reader.ReadInt32(), reader.ReadInt32());
        for (var f = 0; f < matrix.Frames; f++)
        {
            for (var p = 0; p < matrix.Pitches; p++)
                matrix[f, p] = reader.ReadUInt16() / (float)ushort.MaxValue;
        }
        return matrix;
    }
}
