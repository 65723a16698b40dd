using Harkbook.Audio.Recordings;
using Harkbook.Units;

namespace Harkbook.Publishing.Lessons;

/// <summary>A recording, or an audition of the song, to play along with. It is made only when a file of it is asked for.</summary>
public sealed class LessonSound
{
    private readonly Func<CancellationToken, Task<string>> make;
    private Task<string>? made;

    private LessonSound(string identity, Seconds length, Func<CancellationToken, Task<string>> make) => (Identity, Length, this.make) = (identity, length, make);

    /// <summary>A hash of the sound, or of all that it is made from: of one identity, sounds are the same.</summary>
    public string Identity { get; }

    public Seconds Length { get; }

    public static LessonSound Of(Recording recording) => new(recording.ContentHash, recording.Length, _ => Task.FromResult(recording.Path));

    /// <param name="make">Makes the sound's file and gives its path; called once at most.</param>
    public static LessonSound Made(string identity, Seconds length, Func<CancellationToken, Task<string>> make) => new(identity, length, make);

    /// <summary>The sound's file.</summary>
    public Task<string> PathAsync(CancellationToken ct) => made ??= make(ct);
}
