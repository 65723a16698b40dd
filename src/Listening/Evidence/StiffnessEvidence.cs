using System.Buffers.Binary;

namespace Harkbook.Listening.Evidence;

/// <summary>
/// How likely each heard note is under each stiffness of its string (<see cref="StiffnessGrid"/>): natural logs of likelihoods in steps of a twentieth
/// from the likeliest down, a byte each. Notes are known by onset, in milliseconds, and pitch, so that whoever picks the same notes finds them here.
/// </summary>
internal sealed class StiffnessEvidence
{
    private const float StepsInNat = 20;
    private const int KeyBytes = 5, NoteBytes = KeyBytes + StiffnessGrid.Count;

    private readonly Dictionary<(int Milliseconds, int Midi), int> places = [];
    private readonly byte[] bytes;

    private StiffnessEvidence(byte[] bytes)
    {
        this.bytes = bytes;
        for (var at = 0; at < bytes.Length; at += NoteBytes)
            places[(BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(at)), bytes[at + 4])] = at + KeyBytes;
    }

    /// <summary>Nothing was measured.</summary>
    public static StiffnessEvidence None { get; } = new([]);

    /// <summary>Notes.</summary>
    public int Count => bytes.Length / NoteBytes;

    /// <summary>As it is kept.</summary>
    public ReadOnlySpan<byte> Bytes => bytes;

    /// <param name="notes">Each with natural logs over the grid, the highest 0.</param>
    public static StiffnessEvidence Of(IReadOnlyList<(HeardNote Note, double[] Logs)> notes)
    {
        var bytes = new byte[notes.Count * NoteBytes];
        for (var i = 0; i < notes.Count; i++)
        {
            var row = bytes.AsSpan(i * NoteBytes, NoteBytes);
            BinaryPrimitives.WriteInt32LittleEndian(row, Milliseconds(notes[i].Note));
            row[4] = (byte)notes[i].Note.Midi;
            for (var b = 0; b < StiffnessGrid.Count; b++)
                row[KeyBytes + b] = (byte)Math.Min(byte.MaxValue, Math.Round(-StepsInNat * notes[i].Logs[b]));
        }
        return new(bytes);
    }

    /// <exception cref="FormatException">There aren't whole notes.</exception>
    public static StiffnessEvidence OfBytes(byte[] bytes) =>
        bytes.Length % NoteBytes == 0 ? new(bytes) : throw new FormatException($"{bytes.Length} bytes don't hold whole notes of {NoteBytes} each.");

    /// <summary>Natural logs over the grid; null where the note was too short to tell, or nothing was measured.</summary>
    public float[]? LogsOf(HeardNote note)
    {
        if (!places.TryGetValue((Milliseconds(note), note.Midi), out var at))
            return null;
        var logs = new float[StiffnessGrid.Count];
        for (var b = 0; b < logs.Length; b++)
            logs[b] = -bytes[at + b] / StepsInNat;
        return logs;
    }

    private static int Milliseconds(HeardNote note) => (int)Math.Round(1000 * note.Onset.Value);
}
