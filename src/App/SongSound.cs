using System.Security.Cryptography;
using System.Text;
using Harkbook.Audio.Recordings;
using Harkbook.Listening.Sounding;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Lessons;
using Harkbook.Units;

namespace Harkbook.App;

/// <summary>What a lesson plays: the song's recording, or the song sounded, which is done only when a part of the lesson needs it.</summary>
internal sealed record SongSound : IDisposable
{
    private const double TailSeconds = 0.5;
    private readonly string temporary = Path.Combine(Path.GetTempPath(), $"harkbook-{Guid.NewGuid():N}.wav");

    private SongSound(Song song, Passage? only)
    {
        var options = only is { } part ? new AuditionOptions { FirstBar = part.First, LastBar = part.Last, CountInBars = 1 } : new AuditionOptions();
        var start = only is { } passage ? CountIn(song, passage) : new SongClock(song).TimeOf(1);
        Lesson = LessonSound.Made(IdentityOf(song, only), Audition.LengthOf(song, options), ct =>
        {
            using var sound = Audition.Store(song, options, ct);
            WaveFile.Write(temporary, sound);
            return Task.FromResult(temporary);
        }, start);
    }

    private SongSound(Recording recording, int shift) => Lesson = shift == 0
        ? LessonSound.Of(recording)
        : LessonSound.Made($"{recording.ContentHash} moved by {shift} semitones", recording.Length, async ct =>
        {
            await PitchShift.WriteAsync(recording.Path, shift, temporary, ct);
            return temporary;
        });

    public LessonSound Lesson { get; private init; }

    /// <param name="shift">Semitones by which a recording is moved; a song that is sounded already says what it sounds.</param>
    /// <param name="only">The bars that are heard, after one to count in; null for all.</param>
    public static async Task<SongSound> OfAsync(SongFolder opened, int shift, Passage? only, CancellationToken ct)
    {
        if (opened.RecordingPath is null)
            return new(opened.Song, only);
        var recording = await RecordingReader.InspectAsync(opened.RequireRecording(), ct);
        opened.WarnOfAnother(recording);
        var whole = new SongSound(recording, shift);
        return only is { } passage ? whole with { Lesson = Part(opened.Song, recording, whole.Lesson, passage) } : whole;
    }

    public void Dispose() => File.Delete(temporary);

    private static LessonSound Part(Song song, Recording recording, LessonSound whole, Passage passage)
    {
        var start = Math.Clamp(CountIn(song, passage).Value, 0, recording.Length.Value);
        var end = Math.Clamp(new SongClock(song).TimeOf(passage.Last + 1).Value + TailSeconds, start, recording.Length.Value);
        return end - start > TailSeconds
            ? whole.Part(Seconds.FromSeconds(start), Seconds.FromSeconds(end - start))
            : throw new UserException($"{recording.Path}: the song's bars {passage.First} to {passage.Last} lie beyond the recording's end. Mend the anchors of those bars, or choose others.");
    }

    /// <summary>A bar before the passage.</summary>
    private static Seconds CountIn(Song song, Passage passage)
    {
        var clock = new SongClock(song);
        return clock.TimeOf(passage.First) * 2 - clock.TimeOf(passage.First + 1);
    }

    /// <summary>The song and the programs that sound it.</summary>
    private static string IdentityOf(Song song, Passage? only)
    {
        var programs = new[] { typeof(Song), typeof(WaveFile), typeof(Audition) }.Select(t => t.Module.ModuleVersionId.ToString());
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', [.. programs, $"{only}", SongText.Write(song)]))));
    }
}
