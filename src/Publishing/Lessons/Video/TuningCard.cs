using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>What stands in the left column until the music begins: how to tune for it.</summary>
internal static class TuningCard
{
    private const double Room = Screen.ColumnWidth - 60;

    public static void Draw(Sketch sketch, Song song, double bottom)
    {
        var y = Screen.StageTop + 48;
        Line("tune to, low to high", Face.Strong, 34, Tint.Quiet);
        y += 68;
        Line(FrameHead.Strings(song), Face.Strong, 54, Tint.Ink);
        foreach (var words in Facts(song))
        {
            y += 54;
            if (y < bottom - 16)
                Line(words, Face.Text, 34, Tint.Ink);
        }

        void Line(string text, Face face, double size, Tint tint)
        {
            size = Math.Max(26, size * Math.Min(1, Room / FontBook.Width(text, face, size)));
            sketch.Text(TextWrap.Cut(text, face, size, Room), Screen.LeftMiddle, y, face, size, tint, Align.Centre);
        }
    }

    /// <summary>The open strings, low to high, and what else there is to set up.</summary>
    public static IEnumerable<string> Lines(Song song) => [FrameHead.Strings(song), .. Facts(song)];

    private static string Home(Song song) => song.Key.Value.Tonic + (song.Key.Value.Mode.IsMinor ? "m" : "");

    private static IEnumerable<string> Facts(Song song)
    {
        yield return song.Capo.Value.Fret == 0 ? "no capo" : $"capo on fret {song.Capo.Value.Describe(song.Tuning.Value)}";
        if (CapoNames.Of(song) is { } names)
            yield return PitchText.InSentence($"play {names.Hand(Home(song))}, it sounds {Home(song)}");
        if (SongFacts.HasReference(song))
            yield return SongFacts.Reference(song.ReferencePitch.Value);
        if (song.Harp is { } harp)
            yield return $"harmonica in {PitchText.Of(harp.Value)}";
    }
}
