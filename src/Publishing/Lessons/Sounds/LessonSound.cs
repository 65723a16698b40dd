using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Publishing.Lessons.Sounds;

/// <summary>A recording, or the song sounded, to play along with. It is made only when a file of it is asked for.</summary>
public sealed class LessonSound : IDisposable
{
    private const double TailSeconds = 0.5;
    private readonly Func<CancellationToken, Task<string>> make;
    private readonly string? temporary;
    private Task<string>? made;

    internal LessonSound(string identity, Seconds length, Func<CancellationToken, Task<string>> make, string? temporary = null) =>
        (Identity, Length, this.make, this.temporary) = (identity, length, make, temporary);

    /// <summary>Where it starts on the song's clock: 0 for a whole recording.</summary>
    public Seconds Start { get; internal init; }

    /// <summary>Where it starts in its file, if it is a part of what the file holds.</summary>
    public Seconds? CutAt { get; private init; }

    /// <summary>A hash of the sound, or of all that it is made from: of one identity, sounds are the same.</summary>
    public string Identity { get; }

    public Seconds Length { get; }

    /// <param name="semitones">By how many it is moved.</param>
    public static LessonSound Of(Recording recording, int semitones = 0)
    {
        if (semitones == 0)
            return new(recording.ContentHash, recording.Length, _ => Task.FromResult(recording.Path));
        var file = TemporaryFile();
        return new($"{recording.ContentHash} moved by {semitones} semitones", recording.Length, async ct =>
        {
            await PitchShift.WriteAsync(recording.Path, Cents.FromCents(100 * semitones), file, ct);
            return file;
        }, file);
    }

    /// <summary>The song's claims, sounded by our own strings and reeds, after a bar to count in.</summary>
    /// <param name="only">The bars that are heard; null for all.</param>
    public static LessonSound Of(Song song, Passage? only = null) => SoundedSong.Of(song, only, TemporaryFile());

    /// <summary>A bar to count in, a passage and its last notes' ringing; null where all of it lies beyond this sound's end.</summary>
    public LessonSound? Part(Song song, Passage passage)
    {
        var start = Math.Clamp(SoundedSong.CountIn(song, passage).Value, 0, Length.Value);
        var end = Math.Clamp(new SongClock(song).TimeOf(passage.Last + 1).Value + TailSeconds, start, Length.Value);
        return end - start > TailSeconds ? Part(Seconds.FromSeconds(start), Seconds.FromSeconds(end - start)) : null;
    }

    internal LessonSound Part(Seconds start, Seconds length) => new(Identity, length, make, temporary) { Start = start, CutAt = start };

    /// <summary>The sound's file.</summary>
    public Task<string> PathAsync(CancellationToken ct) => made ??= make(ct);

    /// <summary>Deletes the file, if it was made for this sound.</summary>
    public void Dispose()
    {
        if (temporary is not null)
            File.Delete(temporary);
    }

    private static string TemporaryFile() => Path.Combine(Path.GetTempPath(), $"harkbook-{Guid.NewGuid():N}.wav");
}
