using Harkbook.Listening.Checking;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Bench.Planted;

/// <summary>Chords of another kind, root or bass.</summary>
internal static class ChordErrors
{
    private static readonly ClaimKind[] aChord = [ClaimKind.Chord, ClaimKind.Shape];

    /// <summary>In a song, with a shape that sounds the wrong chord.</summary>
    public static IEnumerable<PlantedError> In(Song song, Random chance) =>
        from bar in song.Bars
        from claim in bar.Chords
        where !claim.Value.Chord.IsNone
        from wrong in Wrong(claim.Value.Chord, chance)
        let shape = claim.Value.Shape is null ? null
            : VoicingSearch.Find(wrong.Chord, song.Tuning.Value, song.Capo.Value).FirstOrDefault()?.Shape.WithoutFingers()
        select new PlantedError(wrong.Kind, aChord, SongParts.At(bar, claim.Start))
        {
            Song = song.With(bar.Number, b => b with { Chords = b.Chords.With(claim, claim with { Value = new(wrong.Chord, wrong.Chord.ToString(), shape) }) }),
            Truth = [claim.Value.Chord.ToString()],
        };

    public static IEnumerable<(string Kind, Chord Chord)> Wrong(Chord chord, Random chance)
    {
        var (minor, seventh) = (chord.Quality.PitchClasses.Contains(3), chord.Quality.PitchClasses.Intersect([10, 11]).Any());
        var thirds = chord.Quality.PitchClasses.Intersect([3, 4]).Any();
        if (thirds && !seventh && chord.Quality.PitchClasses.Contains(7))
            yield return ("chord major for minor, or minor for major",
                Chord.Of(chord.Root, minor ? ChordQuality.Major : ChordQuality.Minor, chord.Bass == chord.Root ? chord.Root : chord.Root));
        if (chord.Quality == ChordQuality.Major || chord.Quality == ChordQuality.Minor)
            yield return ("chord with a seventh too many or too few", Chord.Of(chord.Root, minor ? ChordQuality.Minor7 : ChordQuality.Dominant7, chord.Bass));
        if (seventh && thirds && chord.Quality.PitchClasses.Contains(7))
            yield return ("chord with a seventh too many or too few", Chord.Of(chord.Root, minor ? ChordQuality.Minor : ChordQuality.Major, chord.Bass));
        yield return ("chord on another root", chord.Transposed(Interval.ParseDegree(((string[])["4", "5", "2", "b7"])[chance.Next(4)])));
        var bass = chord.Bass == chord.Root ? chord.Notes[1 + chance.Next(chord.Notes.Length - 1)] : chord.Root;
        yield return ("chord over another bass", Chord.Of(chord.Root, chord.Quality, bass));
    }
}
