using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Lessons.Sounds;

namespace Harkbook.Jobs.Files;

/// <summary>What a lesson plays: the recording in the song's folder, or the song sounded where it has none.</summary>
public static class SongSound
{
    /// <param name="shift">Semitones by which a recording is moved; a song that is sounded already says what it sounds.</param>
    /// <param name="only">The bars that are heard, after one to count in; null for all.</param>
    /// <param name="say">Who is told what to know of the recording.</param>
    public static async Task<LessonSound> OfAsync(SongFolder opened, int shift, Passage? only, Action<string> say, CancellationToken ct)
    {
        if (opened.RecordingPath is null)
            return LessonSound.Of(opened.Song, only);
        var recording = await RecordingReader.InspectAsync(opened.RequireRecording(), ct);
        foreach (var warning in opened.WarningsOf(recording))
            say(warning);
        var whole = LessonSound.Of(recording, shift);
        return only is { } passage ? whole.Part(opened.Song, passage) ?? throw Beyond(recording, passage) : whole;
    }

    private static UserException Beyond(Recording recording, Passage passage) =>
        new($"{recording.Path}: the song's bars {passage.First} to {passage.Last} lie beyond the recording's end. "
            + "Mend the anchors of those bars, or choose others.");
}
