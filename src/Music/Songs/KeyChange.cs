using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs;

/// <summary>The key from a bar of a section on (1 = its first), up to the next change or the section's end. Each section starts in the song's key.</summary>
public sealed record KeyChange(int Bar, Key Key)
{
    public Standing Standing { get; init; } = Standing.Decided;
}
