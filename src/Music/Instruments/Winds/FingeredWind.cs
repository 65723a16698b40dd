using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Winds;

/// <summary>
/// A wind with finger holes in a key: which fingerings give which pitch. Usual ones in the keys A to G# have their lowest note from A4
/// up, as a tin whistle in D has D5; a low one lies an octave down (common practice).
/// </summary>
public sealed class FingeredWind
{
    private const int LowestA = 69;
    private const int InD = 74;
    private readonly ILookup<int, WindFingering> fingerings;

    private FingeredWind(WindKind kind, PitchName key, int octave)
    {
        (Kind, Key, Octave) = (kind, key, octave);
        var rise = LowestA + Floor.Mod(key.PitchClass - LowestA, 12) - InD + 12 * octave;
        Fingerings = [.. kind.InD.Select(f => f with { Pitch = Pitch.FromMidi(f.Pitch.Midi + rise, key.Fifths + 1) })];
        fingerings = Fingerings.ToLookup(f => f.Pitch.Midi);
    }

    public WindKind Kind { get; }

    /// <summary>The key whose scale lies on plain fingerings from the lowest note.</summary>
    public PitchName Key { get; }

    /// <summary>0 for the usual one of its key, −1 for a low one.</summary>
    public int Octave { get; }

    /// <summary>Every fingering, from the lowest pitch up.</summary>
    public ImmutableArray<WindFingering> Fingerings { get; }

    /// <summary>As players order one: "D", "low F".</summary>
    public string Name => (Octave < 0 ? "low " : "") + Key;

    public static FingeredWind Of(WindKind kind, PitchName key, int octave = 0) =>
        octave is 0 or -1
            ? new(kind, key, octave)
            : throw new ArgumentOutOfRangeException(nameof(octave), octave, "A fingered wind is a usual one (0) or a low one (−1).");

    /// <summary>Every way to sound a pitch, the usual first; none when it isn't there.</summary>
    public IEnumerable<WindFingering> FingeringsFor(Pitch pitch) => fingerings[pitch.Midi];
}
