using System.Collections.Immutable;
using Harkbook.Music.Analysis.Hands;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>The fourth of a suspended chord on its string: whether the string held it before, and whether it steps down to a third after.</summary>
/// <param name="StringIndex">0 for the low side; the highest string that sounds the fourth.</param>
/// <param name="IsPrepared">The same string sounds the same note in the shape before, as a note of that chord.</param>
/// <param name="IsResolved">The same string moves a semitone or two down to the third of a chord on the same root, or to a note of the next chord.</param>
public sealed record ChordSuspension(ChordUse Chord, SongPlace Place, int StringIndex, Pitch Fourth, bool IsPrepared, bool IsResolved)
{
    private const int FourthAbove = 5;

    /// <summary>Every suspended fourth of the song's shapes, in order.</summary>
    public static ImmutableArray<ChordSuspension> In(Song song)
    {
        var uses = ShapeChanges.Uses(song);
        return [.. Enumerable.Range(0, uses.Count).Select(i => At(i, uses, song)).OfType<ChordSuspension>()];
    }

    private static ChordSuspension? At(int i, List<(ChordUse Use, SongPlace Place)> uses, Song song)
    {
        var (use, place) = uses[i];
        if (use.Shape is not { } shape || use.Chord.IsNone || !IsSuspended(use.Chord.Quality))
            return null;
        var neck = new Fretboard(song.Tuning.Value, song.Capo.Value);
        for (var s = shape.Frets.Length - 1; s >= 0; s--)
        {
            if (shape.Frets[s] is { } fret && (neck.MidiAt(s, fret) - use.Chord.Root.PitchClass) % 12 == FourthAbove)
                return new(use, place, s, NoteSpelling.Of(neck.MidiAt(s, fret), use.Chord, song.KeyAt(place.Bar)), IsHeldFrom(i - 1), IsLedTo(i + 1, fret));

            bool IsHeldFrom(int other) => other >= 0 && Fret(other) == fret && Belongs(other);
            bool IsLedTo(int other, int from) => other < uses.Count && Fret(other) - from is -1 or -2 && Belongs(other);
            int? Fret(int other) => uses[other].Use.Shape is { } o && s < o.Frets.Length ? o.Frets[s] : null;
            bool Belongs(int other) => uses[other].Use.Chord.PitchClasses.Contains(neck.MidiAt(s, Fret(other)!.Value) % 12);
        }
        return null;
    }

    private static bool IsSuspended(ChordQuality quality) =>
        quality.PitchClasses.Contains(FourthAbove) && !quality.PitchClasses.Contains(3) && !quality.PitchClasses.Contains(4);
}
