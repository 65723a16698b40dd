namespace Harkbook.Music.Analysis;

/// <summary>What a remark is about. Its topic stands in <see cref="RemarkTopics"/>.</summary>
public enum RemarkKind
{
    /// <summary>The song's key, and the notes of its scale.</summary>
    KeyOfTheSong,

    /// <summary>Under a capo, what the hand plays and what sounds.</summary>
    NamesUnderCapo,

    /// <summary>Bars in another key than the song's, and the chord that joins them.</summary>
    KeyChange,

    /// <summary>A chord from another mode on the home note.</summary>
    BorrowedChord,

    /// <summary>A chord that treats another chord as home.</summary>
    AppliedChord,

    /// <summary>A chord outside the key that is neither borrowed nor applied, or a chord of the key with a note of colour.</summary>
    ChromaticChord,

    /// <summary>Chords that are native because the song is modal, or would be if it were called so.</summary>
    ModalSong,

    /// <summary>Sevenths that lead nowhere, as in a blues.</summary>
    BluesSeventh,

    /// <summary>The key's minor third over its major home chord.</summary>
    BlueThird,

    /// <summary>A section of twelve bars in the form of a blues.</summary>
    TwelveBarBlues,

    /// <summary>Sections that end other than from five home.</summary>
    SectionCadence,

    /// <summary>A chord of the key whose root is seldom one.</summary>
    UnusualRoot,

    /// <summary>A chord over a bass that stays while the chords change.</summary>
    PedalBass,

    /// <summary>Notes that could bear another name than the song's.</summary>
    OtherName,

    /// <summary>A chord whose root is spelled against what it does.</summary>
    OtherSpelling,

    /// <summary>What the harmonica makes of the guitar's chord.</summary>
    LayeredChord,

    /// <summary>Notes of two parts a semitone apart.</summary>
    LayersClash,

    /// <summary>Notes of two parts that share a letter under two signs.</summary>
    CrossRelation,

    /// <summary>Where two parts are roughest together.</summary>
    RoughMoment,

    /// <summary>A suspended chord's fourth, prepared and resolved or not.</summary>
    SuspendedFourth,

    /// <summary>How many notes of a melody belong to their chords, and what the others are.</summary>
    MelodyTones,

    /// <summary>A stressed note of a melody that isn't the chord's.</summary>
    MelodyLeans,

    /// <summary>A section without the key's home chord.</summary>
    NoHomeChord,

    /// <summary>One root in major and minor side by side.</summary>
    TwoColours,

    /// <summary>A bass that walks under a chord that stays.</summary>
    WalkingBass,

    /// <summary>How far the tune goes, and which part of a choir has that.</summary>
    TuneRange,

    /// <summary>Which scale the tune keeps to.</summary>
    TuneScale,

    /// <summary>Lowered thirds, fifths and sevenths of the tune in a major key.</summary>
    TuneBlueNotes,

    /// <summary>What the tune's notes on strong beats are over their chords.</summary>
    TuneStrongBeats,

    /// <summary>Notes of the tune that are bent, scooped or glided to.</summary>
    TuneBends,

    /// <summary>How the tune and the harmonica share the time.</summary>
    TuneAnswered,

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

    /// <summary>Another shape for a chord that lies clearly nearer to the shapes around it.</summary>
    SmootherShape,

    /// <summary>Bars that the voice enters after their first beat.</summary>
    VoiceEntersLate,

    /// <summary>How syncopated the singing is.</summary>
    SungSyncopation,

    /// <summary>Syllables that fall on the guitar's strokes and between them.</summary>
    VoiceAgainstGuitar,

    /// <summary>Syllables that come before a strong beat and are held over it.</summary>
    VoiceAnticipates,

    /// <summary>Which position the harmonica is played in.</summary>
    HarpPosition,

    /// <summary>Which of the song's chords the harmonica has on one breath.</summary>
    HarpChords,

    /// <summary>Notes that the harmonica must bend for.</summary>
    HarpBends,

    /// <summary>What the part would ask for on another harmonica.</summary>
    HarpChoice,

    /// <summary>How much is blown and drawn, and the longest stretch one way.</summary>
    BreathPlan,

    /// <summary>A stretch that may be too long for a breath.</summary>
    BreathTooLong,

    /// <summary>From the instrument's usual tuning to the song's, string by string.</summary>
    RetuneFromUsual,

    /// <summary>Strings that go above the pitch that they are sold for.</summary>
    StringTunedUp,

    /// <summary>Shapes that other songs of the book use too.</summary>
    SharedShapes,

    /// <summary>Bars that are strummed as in another song.</summary>
    SharedStrum,

    /// <summary>A borrowed chord that another song borrows too.</summary>
    SharedBorrowedChord,

    /// <summary>What this song writes otherwise than another.</summary>
    WrittenTwoWays,
}
