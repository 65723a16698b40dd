namespace Harkbook.Music.Analysis;

/// <summary>The headings of an explanation, and words for how usual something is.</summary>
public static class TopicWords
{
    public static string Of(RemarkTopic topic) => topic switch
    {
        RemarkTopic.Harmony => "The harmony",
        RemarkTopic.Layers => "What the parts make together",
        RemarkTopic.Tune => "The tune",
        RemarkTopic.Hand => "The fretting hand",
        RemarkTopic.SecondInstrument => "The second instrument",
        RemarkTopic.Singing => "The singing against the guitar",
        RemarkTopic.Tuning => "The tuning",
        _ => "Elsewhere in the songbook",
    };

    public static string Of(Frequency frequency) => frequency switch
    {
        Frequency.Usual => "usual",
        Frequency.Uncommon => "not so common",
        _ => "rare",
    };
}
