using System.Collections.Immutable;

namespace Harkbook.Music.Theory.Symbols;

/// <summary>
/// Names for notes that sound together, the most natural first. Every note is tried as root; notes over a bass that is
/// foreign to them are tried as a chord over that bass. A plain kind beats a rare one, the root in the bass beats an
/// inversion, and a chord of the key beats one outside it. Roots and notes are spelled by function: near the key's tonic
/// on the line of fifths where a key is given, else with few accidentals and as the notes came.
/// </summary>
public static class ChordNaming
{
    private const double ForeignBass = 2;
    private const double DoubledForeignBass = .8;
    private const double PlainestOverBass = 1.5;
    private const double InKey = -.15;

    /// <summary>Names for sounding pitches; the lowest is the bass.</summary>
    public static ImmutableArray<ChordName> Rank(IEnumerable<Pitch> pitches, Key? key = null)
    {
        var sorted = pitches.Order().ToList();
        return sorted.Count == 0 ? Silence(key) : Rank(sorted.Select(p => p.Name), sorted[0].Name, key);
    }

    /// <summary>Names for notes over a bass, which may stand among them too (a second time if it also sounds above the bass).</summary>
    public static ImmutableArray<ChordName> Rank(IEnumerable<PitchName> notes, PitchName bass, Key? key = null)
    {
        var sounding = new SoundingNotes([.. notes], bass);
        return [.. Candidates(sounding, key).OrderBy(n => n.Cost).ThenBy(n => Floor.Mod(n.Chord.Root.PitchClass - bass.PitchClass, 12))];
    }

    private static ImmutableArray<ChordName> Silence(Key? key) => [new(Chord.None, 0, [], key)];

    private static IEnumerable<ChordName> Candidates(SoundingNotes notes, Key? key)
    {
        for (var root = 0; root < 12; root++)
        {
            if (!notes.Has(root))
                continue;
            yield return Whole(notes, root, key);
            if (root != notes.Bass.PitchClass && OverBass(notes, root, key) is { } slash)
                yield return slash;
        }
    }

    private static ChordName Whole(SoundingNotes notes, int rootClass, Key? key)
    {
        var reading = ChordReading.Of(notes.Above(rootClass, notes.Mask));
        var root = RootSpelling.Root(rootClass, reading.Quality, notes, key);
        var inBass = reading.Quality.Intervals.First(i => Floor.Mod(i.Semitones - (notes.Bass.PitchClass - rootClass), 12) == 0);
        var chord = Chord.Of(root, reading.Quality, root + inBass);
        var cost = reading.Cost + Inversion(inBass, reading) + Unspelled(chord, notes);
        return new(chord, cost + Fit(chord, key), reading.LeftOut, key);
    }

    private static ChordName? OverBass(SoundingNotes notes, int rootClass, Key? key)
    {
        var upper = notes.Mask & ~(1 << notes.Bass.PitchClass);
        var reading = ChordReading.Of(notes.Above(rootClass, upper));
        if (int.PopCount(upper) < 3 || reading.Cost > PlainestOverBass || reading.LeftOut.Length > 0)
            return null;
        var root = RootSpelling.Root(rootClass, reading.Quality, notes, key);
        var chord = Chord.Of(root, reading.Quality, RootSpelling.Bass(notes.Bass.PitchClass, root, reading.Quality, key));
        var cost = reading.Cost + ForeignBass + (notes.BassIsDoubled ? DoubledForeignBass : 0);
        return new(chord, cost + Unspelled(chord, notes) + Fit(chord, key), [], key);
    }

    private static double Inversion(Interval inBass, ChordReading reading)
    {
        if (inBass == Interval.Unison)
            return 0;
        if (ChordName.IsSymmetric(reading.Quality))
            return .2;
        var isTriad = reading.Quality.Intervals.Length <= 3 || reading.Quality == ChordQuality.AddedNinth;
        return inBass.Degree.Degree switch { 3 or 5 when isTriad => .8, 3 or 5 or 7 => 1.2, 6 => 1.5, _ => 1.8 };
    }

    /// <summary>How many notes came under other names. It decides between the roots of a symmetric chord and elsewhere only breaks ties.</summary>
    private static double Unspelled(Chord chord, SoundingNotes notes) =>
        chord.Notes.Count(n => notes.Has(n.PitchClass) && !notes.Named(n)) * (ChordName.IsSymmetric(chord.Quality) ? .25 : .02);

    /// <summary>What the key says for or against a name.</summary>
    internal static double Fit(Chord chord, Key? key) =>
        key is null ? 0 : (key.Contains(chord.Root) ? InKey : 0) + (key.Contains(chord) ? InKey : 0) + (IsLeading(chord, key) ? 2 * InKey : 0);

    private static bool IsLeading(Chord chord, Key key) =>
        chord.Quality == ChordQuality.Diminished7 && key.DegreeOf(chord.Root) == Interval.FromDegree(7, 0);
}
