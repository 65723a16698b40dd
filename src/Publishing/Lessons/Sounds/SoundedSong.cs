using System.Security.Cryptography;
using System.Text;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Music.Songs;
using Harkbook.Sounding;
using Harkbook.Units;

namespace Harkbook.Publishing.Lessons.Sounds;

/// <summary>A song's own claims as the sound of its lesson, after a bar to count in.</summary>
internal static class SoundedSong
{
    public static LessonSound Of(Song song, Passage? only, string file)
    {
        var bars = only ?? Passage.Whole(song);
        var options = new AuditionOptions { FirstBar = bars.First, LastBar = bars.Last, CountInBars = 1 };
        return new(IdentityOf(song, only), Audition.LengthOf(song, options), ct =>
        {
            using var sound = Audition.Store(song, options, ct);
            WaveFile.Write(file, sound);
            return Task.FromResult(file);
        }, file)
        {
            Start = CountIn(song, bars),
        };
    }

    /// <summary>A bar before the passage.</summary>
    public static Seconds CountIn(Song song, Passage passage)
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
