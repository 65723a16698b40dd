using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Analysis.Layers;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>Blues practice and form.</summary>
internal static class BluesRemarks
{
    /// <summary>Roots above home that each bar of the twelve may start on, in "Open Music Theory" and its usual variants (common practice).</summary>
    private static readonly int[][] TwelveBars = [[0], [0, 5], [0], [0], [5], [5], [0], [0], [7], [5, 7], [0], [0, 7]];

    public static IEnumerable<Remark> Of(Song song, HarmonicAnalysis analysis) => Sevenths(analysis).Concat(Thirds(song)).Concat(Forms(song, analysis));

    private static IEnumerable<Remark> Sevenths(HarmonicAnalysis analysis)
    {
        foreach (var group in analysis.Sounding.Where(c => c.Reading.Origin.Kind == OriginKind.BluesSeventh).GroupBy(c => c.Reading.Key))
        {
            var chords = group.DistinctBy(c => (c.Reading.Chord.Root, c.Reading.Chord.Quality)).OrderBy(c => c.Reading.Numeral!.SemitonesAboveHome).ToList();
            var degrees = chords.Select(c => NumeralSpeech.Root(c.Reading.Numeral!)).Distinct().ToList();
            var names = NumberWords.List([.. chords.Select(c => ChordSpeech.Of(Chord.Of(c.Reading.Chord.Root, c.Reading.Chord.Quality)))]);
            var home = group.Key.Tonic;
            var third = degrees.Contains("four")
                ? $" The seventh of the four chord, {ChordSpeech.Of(home + Interval.FromDegree(3, -1))}, is the minor third of {ChordSpeech.Of(home)}." : "";
            yield return new(RemarkKind.BluesSeventh,
                $"The {NumberWords.List(degrees)} {(degrees.Count == 1 ? "chord has a seventh that leads" : "chords have sevenths that lead")} nowhere, as in "
                    + $"a blues: {names}.{third}",
                [.. chords.Select(HarmonyRemarks.Numeral)]) { Places = [.. group.Select(c => c.Place)] };
        }
    }

    /// <summary>A melody in minor over chords in major.</summary>
    private static IEnumerable<Remark> Thirds(Song song) =>
        new[] { (Layer.Harmonica, "The harmonica plays"), (Layer.Picked, "The highest picked voice has") }
            .SelectMany(l => MelodyLine.Of(song, l.Item1).Where(n => IsBlueThird(n, song.KeyAt(n.Place.Bar))).GroupBy(n => song.KeyAt(n.Place.Bar))
                .Select(g => Third(g.Key, l.Item2, [.. g])));

    private static bool IsBlueThird(MelodyNote note, Key key) =>
        note.Chord.Root.PitchClass == key.Tonic.PitchClass && ChordTraits.HasMajorThird(note.Chord.Quality) && !note.IsChordTone
        && FunctionalDegree.Above(note.Note.Pitch.Name, key) == 3;

    private static Remark Third(Key key, string who, List<MelodyNote> notes) =>
        new(RemarkKind.BlueThird, $"{who} {ChordSpeech.Of(key.Tonic + Interval.FromDegree(3, -1))}, the minor third of {ChordSpeech.Of(key.Tonic)}, over the "
            + "major home chord, as in a blues.",
            [new("minor thirds over the major home chord", NumberWords.Of(notes.Count, "note"),
                "each note of the line compared with the chord and the key; common practice of the blues")])
        {
            Places = [.. notes.Select(n => n.Place)],
        };

    private static IEnumerable<Remark> Forms(Song song, HarmonicAnalysis analysis)
    {
        var rootOf = analysis.Sounding.Where(c => c.Place.Start == Beats.Zero).ToDictionary(c => c.Place.Bar, c => c.Reading.Numeral!.SemitonesAboveHome);
        var sections = song.Sections.Where(s => IsTwelveBars(s, rootOf)).ToList();
        if (sections.Count == 0)
            yield break;
        var names = sections.Select(s => s.Name).Distinct().ToList();
        yield return new(RemarkKind.TwelveBarBlues, $"{NumberWords.List(names)} {(names.Count == 1 ? "is" : "are")} a twelve-bar blues.",
            [new("form", "I I I I, IV IV I I, V IV I I, by the bars' first chords",
                "Open Music Theory, with IV in bar 2 and V in bars 10 and 12 as common practice")])
        {
            Places = [.. sections.SelectMany(s => s.Bars).Select(SongPlace.Of)],
        };
    }

    private static bool IsTwelveBars(Section section, Dictionary<int, int> rootOf) =>
        section.Bars.Length == 12 && section.Bars.Select((b, i) => rootOf.TryGetValue(b.Number, out var root) && TwelveBars[i].Contains(root))
            .All(fits => fits);
}
