namespace Harkbook.Publishing.Engraving.Diagrams;

/// <summary>How a chord diagram lies.</summary>
public enum NeckDirection
{
    /// <summary>Strings upright, the low one at the left, the nut on top.</summary>
    Upright,

    /// <summary>Strings level, the low one at the bottom, the nut at the left, as the player looks down on the neck.</summary>
    Level,
}

/// <summary>What stands at the foot of each string.</summary>
[Flags]
public enum StringFoot
{
    Nothing = 0,

    /// <summary>The open string without capo; strong where it differs from standard tuning.</summary>
    OpenStrings = 1,

    /// <summary>The note of each string; under a capo the sounding one or the hand's, as the name above is.</summary>
    SoundingNotes = 2,
}

/// <summary>How a chord diagram is drawn; every measure follows from the gap between strings.</summary>
/// <param name="StringGap">Points between neighbouring strings, above 0.</param>
/// <param name="FewestFrets">Frets shown at least, 3 to 24.</param>
/// <param name="NameCapo">Say the capo in words below; where they stand elsewhere, its bar is enough.</param>
/// <param name="ShowFingers">Number the fingers that the shape gives or, where it gives none, the easiest that a hand can play.</param>
/// <param name="LeftHanded">Upright, the low string at the right, as left-handed players see their neck; a level one stays.</param>
public sealed record ChordDiagramStyle(double StringGap, NeckDirection Direction = NeckDirection.Upright, StringFoot Foot = StringFoot.OpenStrings,
    int FewestFrets = 4, bool ShowFingers = true, bool NameCapo = true, bool LeftHanded = false)
{
    /// <summary>For a printed sheet.</summary>
    public static ChordDiagramStyle Print { get; } = new(10.5);

    /// <summary>For a 1080-line video frame.</summary>
    public static ChordDiagramStyle Large { get; } = new(56, Foot: StringFoot.OpenStrings | StringFoot.SoundingNotes);
}
