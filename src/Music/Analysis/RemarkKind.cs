namespace Harkbook.Music.Analysis;

/// <summary>What a remark is about. Its topic stands in <see cref="RemarkTopics"/>.</summary>
public enum RemarkKind
{
    /// <summary>The song's key, and the notes of its scale.</summary>
    KeyOfTheSong,
}
