using Harkbook.Units;

namespace Harkbook.Audio.Recordings;

/// <summary>How long a recording may be.</summary>
internal static class RecordingLength
{
    /// <summary>Room for a chord to be heard; a beat takes about ten times as long to show itself.</summary>
    private static readonly Seconds shortest = Seconds.FromSeconds(1);

    /// <summary>Three hours at 22 050 Hz are 950 MB of samples.</summary>
    private static readonly Seconds longest = Seconds.FromSeconds(3 * 3600);

    /// <summary>So long that even a bad guess of the length settles it.</summary>
    public static Seconds Hopeless { get; } = longest * 2;

    public static void Require(Seconds length, string path)
    {
        if (length < shortest)
            throw new RecordingException($"{path}: {Words.Time(length)} is too short to listen to. At least 1 s is needed, and about 10 s to find a beat.");
        if (length > longest)
            throw new RecordingException($"{path}: {Words.Time(length)} is too long; 3 h is the limit. Cut out the song first, here 5 minutes from minute 30: "
                + $"ffmpeg -ss 30:00 -t 5:00 -i \"{path}\" song.wav");
    }
}
