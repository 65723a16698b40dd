using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>
/// What a teacher points at because it isn't there, or moves alone: a section without its home chord, one root in major and minor side by side, a bass
/// that walks under a chord that stays.
/// </summary>
internal static class AbsenceRemarks
{
    private const int FewestBars = 4;

    public static IEnumerable<Remark> Of(Song song, HarmonicAnalysis analysis) => Homeless(song).Concat(TwoColours(analysis)).Concat(Walking(analysis));

    private static IEnumerable<Remark> Homeless(Song song) =>
        song.Sections.Where(s => s.Bars.Length >= FewestBars).Select(s => (Section: s, Key: s.KeyAt(1, song.Key.Value), Chords: ChordsOf(s)))
            .Where(s => s.Section.Keys.IsEmpty && s.Chords.Length >= 2 && s.Chords.All(c => c.Root.PitchClass != s.Key.Tonic.PitchClass))
            .GroupBy(s => s.Key).Select(g => Homeless(g.Key, [.. g.Select(s => s.Section)], [.. g.SelectMany(s => s.Chords).Distinct()]));

    private static Chord[] ChordsOf(Section section) =>
        [.. section.Bars.SelectMany(b => b.Chords).Select(c => c.Value.Chord).Where(c => !c.IsNone).Distinct()];

    private static Remark Homeless(Key key, List<Section> sections, Chord[] chords)
    {
        var names = sections.Select(s => s.Name).Distinct().ToList();
        return new(RemarkKind.NoHomeChord, $"{NumberWords.List(names)} never {(names.Count == 1 ? "has" : "have")} the home chord, "
            + $"{ChordSpeech.Of(key.Tonic)}{(key.Mode.IsMinor ? " minor" : "")}, and so {(names.Count == 1 ? "stays" : "stay")} open.",
            [new("chords", string.Join(", ", chords.Select(c => c.ToString())), "every chord of the section by its root")])
        {
            Places = [.. sections.SelectMany(s => s.Bars).Select(SongPlace.Of)],
        };
    }

    private static IEnumerable<Remark> TwoColours(HarmonicAnalysis analysis)
    {
        var sounding = analysis.Sounding.ToList();
        var pairs = sounding.Zip(sounding.Skip(1)).Where(p => p.First.Reading.Chord.Root == p.Second.Reading.Chord.Root
            && Third(p.First.Reading.Chord) is { } a && Third(p.Second.Reading.Chord) is { } b && a != b);
        foreach (var group in pairs.GroupBy(p => (From: p.First.Reading.Chord, To: p.Second.Reading.Chord)))
        {
            var (from, to) = (group.Key.From.Root + Interval.FromDegree(3, Third(group.Key.From)!.Value - 4),
                group.Key.To.Root + Interval.FromDegree(3, Third(group.Key.To)!.Value - 4));
            yield return new(RemarkKind.TwoColours,
                $"{ChordSpeech.Of(group.Key.From)} turns to {ChordSpeech.Of(group.Key.To)} on the same root: only the third "
                    + $"{(Third(group.Key.To) == 3 ? "falls" : "rises")}, {ChordSpeech.Of(from)} to {ChordSpeech.Of(to)}.",
                [new("thirds", $"{from} in {group.Key.From}, {to} in {group.Key.To}", "chords in a row compared, root by root")])
            {
                Places = [.. group.Select(p => p.Second.Place)],
            };
        }
    }

    /// <summary>Semitones of the one third that the chord has.</summary>
    private static int? Third(Chord chord) =>
        (ChordTraits.HasMinorThird(chord.Quality), ChordTraits.HasMajorThird(chord.Quality)) switch
        {
            (true, false) => 3,
            (false, true) => 4,
            _ => null,
        };

    private static IEnumerable<Remark> Walking(HarmonicAnalysis analysis)
    {
        var run = new List<PlacedChord>();
        foreach (var chord in analysis.Sounding.Append(null))
        {
            if (chord is not null && run.Count > 0 && chord.Reading.Chord == run[^1].Reading.Chord)
                continue;
            if (chord is not null && (run.Count == 0 || (SameChord(run[^1], chord) && IsStep(run[^1], chord))))
            {
                run.Add(chord);
                continue;
            }
            if (run.Count >= 3)
                yield return Walk(run);
            run = chord is null ? [] : [chord];
        }
    }

    private static bool SameChord(PlacedChord a, PlacedChord b) =>
        a.Reading.Chord.Root == b.Reading.Chord.Root && a.Reading.Chord.Quality == b.Reading.Chord.Quality;

    private static bool IsStep(PlacedChord a, PlacedChord b) =>
        Floor.Mod(b.Reading.Chord.Bass.PitchClass - a.Reading.Chord.Bass.PitchClass, 12) is 1 or 2 or 10 or 11;

    private static Remark Walk(List<PlacedChord> run)
    {
        var basses = run.Select(c => ChordSpeech.Of(c.Reading.Chord.Bass)).ToList();
        var chord = run[0].Reading.Chord;
        return new(RemarkKind.WalkingBass,
            $"The bass walks {NumberWords.List(basses)} while {ChordSpeech.Of(Chord.Of(chord.Root, chord.Quality))} stays above it.",
            [.. run.Select(c => new RemarkFact("bass", $"{c.Reading.Chord.Bass} in {c.Reading.Chord}", "basses of chords in a row that share root and kind"))])
        {
            Places = [.. run.Select(c => c.Place)],
        };
    }
}
