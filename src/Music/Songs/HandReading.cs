using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>
/// A song whose names are the hand's, as its file says it: without the capo, on strings that are tuned as written, harmonica and pitch
/// moved along, so that it sounds as high as the song does.
/// </summary>
internal static class HandReading
{
    /// <summary>The song itself where its names are what sounds.</summary>
    public static Song Of(Song song) => song.HandNames is not { } raise ? song : SongTransposition.NamesOf(song, -raise) with
    {
        HandNames = null,
        Capo = song.Capo with { Value = Capo.None },
        Harp = SongTransposition.HarpOf(song, -raise),
        ReferencePitch = song.ReferencePitch with { Value = song.ReferencePitch.Value.Raised(Cents.FromCents(100 * raise.Semitones)) },
    };
}
