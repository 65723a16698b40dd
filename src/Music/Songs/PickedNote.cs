using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Songs;

/// <summary>A note on one string.</summary>
/// <param name="StringIndex">0 is the lowest.</param>
/// <param name="Fret">Where the string is stopped, from the capo; 0 for a natural harmonic and for a muted note.</param>
public sealed record PickedNote(int StringIndex, int Fret, Attack Attack = Attack.Picked)
{
    public const int HighestFret = Fretboard.MostFrets;

    public GraceNotes Graces { get; init; }

    /// <summary>The string is damped: a click without pitch.</summary>
    public bool IsMuted { get; init; }

    /// <summary>Hardly played: felt rather than heard.</summary>
    public bool IsGhost { get; init; }

    /// <summary>The fret over which a finger touches the string, so that only a harmonic sounds; null where none does.</summary>
    public int? TouchedAt { get; init; }

    public Bend Bend { get; init; }

    public bool HasVibrato { get; init; }

    public SlideOff SlideOff { get; init; }

    /// <summary>Rings on although the chord changes.</summary>
    public bool LetsRing { get; init; }

    public PickingFinger Finger { get; init; }

    /// <summary>
    /// The pitch that is meant, in semitones above the open (or capoed) string: that of a bend is its top, that of a harmonic its
    /// partial's, so neither need be whole. Null for a muted note.
    /// </summary>
    public double? Rise =>
        IsMuted ? null
        : TouchedAt is { } touch && HarmonicNode.PartialAt(touch - Fret) is { } partial ? Fret + HarmonicNode.Rise(partial)
        : Fret + Bend.By.Value / 100;

    /// <summary>The note on another string or fret; its grace notes and where it is touched move along.</summary>
    public PickedNote MovedTo(int stringIndex, int fret) => this with
    {
        StringIndex = stringIndex,
        Fret = fret,
        TouchedAt = TouchedAt + fret - Fret,
        Graces = GraceNotes.Of([.. Graces.All().Select(g => g with { Fret = g.Fret + fret - Fret })]),
    };

    /// <summary>Whether <see cref="MovedTo"/> keeps every fret of it on a neck.</summary>
    public bool CanMoveTo(int fret) => Graces.All().All(g => g.Fret + fret - Fret is >= 0 and <= HighestFret);

    /// <summary>The nearest MIDI number to what is meant, the lower of two; null for a muted note.</summary>
    public int? MidiOn(Fretboard neck) => Rise is { } rise ? neck.MidiAt(StringIndex, 0) + (int)Math.Ceiling(rise - 0.5) : null;
}
