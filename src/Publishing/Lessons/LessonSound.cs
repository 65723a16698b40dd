using Harkbook.Audio.Recordings;
using Harkbook.Units;

namespace Harkbook.Publishing.Lessons;

/// <summary>A recording, or an audition of the song, to play along with. It is made only when a file of it is asked for.</summary>
public sealed class LessonSound
{
    private readonly Func<CancellationToken, Task<string>> make;
    private Task<string>? made;

    private LessonSound(string identity, Seconds length, Func<CancellationToken, Task<string>> make) =>
        (Identity, Length, this.make) = (identity, length, make);

    /// <summary>Where it starts on the song's clock: 0 for a whole recording.</summary>
    public Seconds Start { get; private init; }

    /// <summary>Where it starts in its file, if it is a part of what the file holds.</summary>
    public Seconds? CutAt { get; private init; }

    /// <summary>A hash of the sound, or of all that it is made from: of one identity, sounds are the same.</summary>
    public string Identity { get; }

    public Seconds Length { get; }

    public static LessonSound Of(Recording recording) => new(recording.ContentHash, recording.Length, _ => Task.FromResult(recording.Path));

    /// <summary>A part of a whole sound.</summary>
    public LessonSound Part(Seconds start, Seconds length) => new(Identity, length, make) { Start = start, CutAt = start };

    /// <param name="make">Makes the sound's file and gives its path; called once at most.</param>
    /// <param name="start">Where it starts on the song's clock.</param>
    public static LessonSound Made(string identity, Seconds length, Func<CancellationToken, Task<string>> make, Seconds start = default) =>
        new(identity, length, make) { Start = start };

    /// <summary>The sound's file.</summary>
    public Task<string> PathAsync(CancellationToken ct) => made ??= make(ct);
}
