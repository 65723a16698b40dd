using System.Collections.Immutable;

namespace Harkbook.Music.Theory;

/// <summary>Notes that sound together, as pitch classes and as they were spelled.</summary>
internal sealed class SoundingNotes
{
    private readonly ImmutableArray<PitchName> names;

    public SoundingNotes(ImmutableArray<PitchName> notes, PitchName bass)
    {
        names = notes.Add(bass);
        Bass = bass;
        foreach (var name in names)
            Mask |= 1 << name.PitchClass;
        BassIsDoubled = notes.Count(n => n.PitchClass == bass.PitchClass) > 1;
    }

    public PitchName Bass { get; }

    /// <summary>Bit n set where pitch class n sounds.</summary>
    public int Mask { get; }

    public bool BassIsDoubled { get; }

    public bool Has(int pitchClass) => (Mask >> pitchClass & 1) != 0;

    public bool Named(PitchName name) => names.Contains(name);

    /// <summary>A set of pitch classes as semitones above one of them.</summary>
    public int Above(int root, int mask) => (mask >> root | mask << (12 - root)) & 0xFFF;
}
