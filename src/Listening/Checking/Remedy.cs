using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking;

/// <summary>How a song file takes what would fit better: an edit that changes this and nothing else, decided by whoever takes it.</summary>
/// <param name="Target">What it changes, in words; two remedies of one target can't both be taken.</param>
public sealed record Remedy(string Target, Func<SongDocument, SongDocument> Onto)
{
    /// <summary>How much more than its own place it changes, in words; null where nothing else.</summary>
    public string? Reach { get; init; }
}
