namespace Harkbook.Music.Analysis;

/// <summary>What a remark is about. Its topic stands in <see cref="RemarkTopics"/>.</summary>
public enum RemarkKind
{
    /// <summary>The song's key, and the notes of its scale.</summary>
    KeyOfTheSong,

    /// <summary>Strings that keep one note while the chords change.</summary>
    StringHeld,

    /// <summary>A shape that slides as a whole.</summary>
    ShapeSlides,

    /// <summary>The smoothest and the widest change of shape.</summary>
    ShapeMotion,

    /// <summary>Fingers that stay where they are from one shape to the next.</summary>
    FingersKept,

    /// <summary>Another shape for a chord that is clearly easier on the hand.</summary>
    EasierShape,

    /// <summary>Bars that the voice enters after their first beat.</summary>
    VoiceEntersLate,

    /// <summary>How syncopated the singing is.</summary>
    SungSyncopation,

    /// <summary>Syllables that fall on the guitar's strokes and between them.</summary>
    VoiceAgainstGuitar,

    /// <summary>Syllables that come before their beat and are held over it.</summary>
    VoiceAnticipates,
}
