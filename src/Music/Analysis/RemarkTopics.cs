namespace Harkbook.Music.Analysis;

/// <summary>Which topic each kind of remark belongs to.</summary>
internal static class RemarkTopics
{
    public static RemarkTopic Of(RemarkKind kind) => kind switch
    {
        RemarkKind.KeyOfTheSong or RemarkKind.NamesUnderCapo or RemarkKind.KeyChange or RemarkKind.BorrowedChord or RemarkKind.AppliedChord
            or RemarkKind.ChromaticChord or RemarkKind.ModalSong
            or RemarkKind.BluesSeventh or RemarkKind.TwelveBarBlues or RemarkKind.SectionCadence or RemarkKind.UnusualRoot or RemarkKind.PedalBass
                or RemarkKind.OtherName or RemarkKind.OtherSpelling or RemarkKind.BlueThird or RemarkKind.NoHomeChord
                or RemarkKind.TwoColours or RemarkKind.WalkingBass => RemarkTopic.Harmony,
        RemarkKind.LayeredChord or RemarkKind.LayersClash or RemarkKind.CrossRelation or RemarkKind.RoughMoment or RemarkKind.SuspendedFourth
            or RemarkKind.MelodyTones or RemarkKind.MelodyLeans => RemarkTopic.Layers,
        RemarkKind.TuneRange or RemarkKind.TuneScale or RemarkKind.TuneBlueNotes or RemarkKind.TuneStrongBeats or RemarkKind.TuneBends
            or RemarkKind.TuneAnswered => RemarkTopic.Tune,
        RemarkKind.StringHeld or RemarkKind.ShapeSlides or RemarkKind.ShapeMotion or RemarkKind.FingersKept or RemarkKind.EasierShape
            or RemarkKind.SmootherShape => RemarkTopic.Hand,
        RemarkKind.VoiceEntersLate or RemarkKind.SungSyncopation or RemarkKind.VoiceAgainstGuitar or RemarkKind.VoiceAnticipates => RemarkTopic.Singing,
        RemarkKind.HarpPosition or RemarkKind.HarpChords or RemarkKind.HarpBends or RemarkKind.HarpChoice or RemarkKind.BreathPlan
            or RemarkKind.BreathTooLong => RemarkTopic.SecondInstrument,
        RemarkKind.RetuneFromUsual or RemarkKind.StringTunedUp => RemarkTopic.Tuning,
        RemarkKind.SharedShapes or RemarkKind.SharedStrum or RemarkKind.SharedBorrowedChord or RemarkKind.WrittenTwoWays => RemarkTopic.Songbook,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "This kind of remark has no topic; give it one here."),
    };
}
