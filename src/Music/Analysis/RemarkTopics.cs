namespace Harkbook.Music.Analysis;

/// <summary>Which topic each kind of remark belongs to.</summary>
internal static class RemarkTopics
{
    public static RemarkTopic Of(RemarkKind kind) => kind switch
    {
        RemarkKind.KeyOfTheSong => RemarkTopic.Harmony,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "This kind of remark has no topic; give it one here."),
    };
}
