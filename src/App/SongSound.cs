using System.Security.Cryptography;
using System.Text;
using Harkbook.Audio.Recordings;
using Harkbook.Listening.Sounding;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Lessons;

namespace Harkbook.App;

/// <summary>What a lesson plays: the song's recording, or the song sounded, which is done only when a part of the lesson needs it.</summary>
internal sealed class SongSound : IDisposable
{
    private readonly string temporary = Path.Combine(Path.GetTempPath(), $"harkbook-{Guid.NewGuid():N}.wav");

    private SongSound(Song song)
    {
        var options = new AuditionOptions();
        Lesson = LessonSound.Made(IdentityOf(song), Audition.LengthOf(song, options), ct =>
        {
            WaveFile.Write(temporary, Audition.Render(song, options, ct));
            return Task.FromResult(temporary);
        });
    }

    private SongSound(Recording recording, int shift) => Lesson = shift == 0
        ? LessonSound.Of(recording)
        : LessonSound.Made($"{recording.ContentHash} moved by {shift} semitones", recording.Length, async ct =>
        {
            await PitchShift.WriteAsync(recording.Path, shift, temporary, ct);
            return temporary;
        });

    public LessonSound Lesson { get; }

    /// <param name="shift">Semitones by which a recording is moved; a song that is sounded already says what it sounds.</param>
    public static async Task<SongSound> OfAsync(SongFolder opened, int shift, CancellationToken ct)
    {
        if (opened.RecordingPath is null)
            return new(opened.Song);
        var recording = await RecordingReader.InspectAsync(opened.RequireRecording(), ct);
        opened.WarnOfAnother(recording);
        return new(recording, shift);
    }

    public void Dispose() => File.Delete(temporary);

    /// <summary>The song and the programs that sound it.</summary>
    private static string IdentityOf(Song song)
    {
        var programs = new[] { typeof(Song), typeof(WaveFile), typeof(Audition) }.Select(t => t.Module.ModuleVersionId.ToString());
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', [.. programs, SongText.Write(song)]))));
    }
}
