namespace Harkbook.Music.Songs;

/// <summary>A short note just before another on the same string.</summary>
public readonly record struct GraceNote(int Fret, Attack Attack = Attack.Picked);

/// <summary>The grace notes before a note, first to last, packed so that they compare as one value; the default is none.</summary>
public readonly record struct GraceNotes
{
    /// <summary>More don't fit before a note.</summary>
    public const int Most = 4;

    private const int FretBits = 6, Bits = FretBits + 3;
    private readonly ulong packed;

    private GraceNotes(ulong packed, int count) => (this.packed, Count) = (packed, count);

    public int Count { get; }

    public GraceNote this[int index] =>
        index >= 0 && index < Count
            ? new((int)(packed >> Bits * index & (1 << FretBits) - 1), (Attack)(packed >> Bits * index + FretBits & 7))
            : throw new ArgumentOutOfRangeException(nameof(index), index, $"There are {Count} grace notes.");

    public static GraceNotes Of(params ReadOnlySpan<GraceNote> notes)
    {
        if (notes.Length > Most)
            throw new ArgumentOutOfRangeException(nameof(notes), notes.Length, $"At most {Most} grace notes stand before a note.");
        var packed = 0UL;
        for (var i = 0; i < notes.Length; i++)
        {
            if (notes[i].Fret is < 0 or > PickedNote.HighestFret)
                throw new ArgumentOutOfRangeException(nameof(notes), notes[i].Fret, $"Frets run from 0 to {PickedNote.HighestFret}.");
            packed |= ((ulong)(uint)notes[i].Fret | (ulong)(uint)notes[i].Attack << FretBits) << Bits * i;
        }
        return new(packed, notes.Length);
    }

    public override string ToString() => string.Join(", ", All());

    public IEnumerable<GraceNote> All()
    {
        for (var i = 0; i < Count; i++)
            yield return this[i];
    }
}
