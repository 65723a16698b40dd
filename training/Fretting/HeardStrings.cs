using System.Collections.Immutable;
using Harkbook.Listening;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Training.Fretting;

/// <summary>What is heard of a piece that bears on its strings: notes, how stiff their strings are, the key.</summary>
internal sealed record HeardStrings(ImmutableArray<HeardNote> Notes, StiffnessEvidence Stiffness, Key Key)
{
    public static HeardStrings Read(string path)
    {
        using var reader = new BinaryReader(File.OpenRead(path));
        var key = new Key(PitchName.FromPitchClass(reader.ReadInt32()), reader.ReadBoolean() ? Mode.Minor : Mode.Major);
        HeardNote[] notes = [.. Enumerable.Range(0, reader.ReadInt32()).Select(_ => new HeardNote(reader.ReadInt32(),
            Seconds.FromSeconds(reader.ReadDouble()), Seconds.FromSeconds(reader.ReadDouble()), reader.ReadDouble(), reader.ReadDouble()))];
        return new([.. notes], StiffnessEvidence.OfBytes(reader.ReadBytes(reader.ReadInt32())), key);
    }

    public void Write(string path)
    {
        using var writer = new BinaryWriter(File.Create(path));
        writer.Write(Key.Tonic.PitchClass);
        writer.Write(Key.Mode == Mode.Minor);
        writer.Write(Notes.Length);
        foreach (var note in Notes)
        {
            writer.Write(note.Midi);
            foreach (var value in new[] { note.Onset.Value, note.End.Value, note.Confidence, note.Strength })
                writer.Write(value);
        }
        writer.Write(Stiffness.Bytes.Length);
        writer.Write(Stiffness.Bytes);
    }
}
