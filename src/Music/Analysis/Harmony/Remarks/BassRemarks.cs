using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>Chords over a bass that stays, and native chords on roots that are seldom one.</summary>
internal static class BassRemarks
{
    public static IEnumerable<Remark> Of(HarmonicAnalysis analysis) => Pedals(analysis).Concat(Roots(analysis));

    private static IEnumerable<Remark> Pedals(HarmonicAnalysis analysis) =>
        analysis.Sounding.Where(c => c.IsOverPedal).GroupBy(c => (c.Reading.Key, c.Reading.Chord.Bass)).Select(g => Pedal(g.Key.Key, g.Key.Bass, [.. g]));

    private static Remark Pedal(Key key, PitchName bass, List<PlacedChord> uses)
    {
        var chords = uses.DistinctBy(c => c.Reading.Chord).ToList();
        var names = NumberWords.List([.. chords.Select(c => ChordSpeech.Of(c.Reading.Chord))]);
        var degrees = chords.Select(c => NumeralSpeech.Chord(c.Reading.Numeral!)).Distinct().ToList();
        var note = FunctionalDegree.Above(bass, key) == 0 ? "the home note" : "the fifth of the key";
        var verb = chords.Count == 1 ? "is" : "are";
        return new(RemarkKind.PedalBass,
            $"{names} {verb} {NumberWords.List(degrees)} over {note}, {ChordSpeech.Of(bass)}, which stays in the bass while the chord changes.",
            [.. chords.Select(HarmonyRemarks.Numeral), new("bass", $"{bass}, as in the chords around it", "basses of neighbouring chords compared")])
        {
            Places = [.. uses.Select(c => c.Place)],
        };
    }

    /// <summary>A root of plain major or minor; what a mode brings is told with the mode.</summary>
    private static bool IsPlain(ChordInContext reading) =>
        (reading.Key.Mode.IsMinor ? Mode.Minor : Mode.Major).Intervals.Append(Interval.FromDegree(7, 0))
            .Any(i => i.Semitones == reading.Numeral!.SemitonesAboveHome);

    private static IEnumerable<Remark> Roots(HarmonicAnalysis analysis)
    {
        var rare = analysis.Sounding.Where(c => c.Reading.Origin.Kind is OriginKind.Native or OriginKind.LeadingNote && IsPlain(c.Reading)
            && RockRoots.Of(c.Reading.Numeral!).Frequency == Frequency.Rare);
        foreach (var group in rare.GroupBy(c => (c.Reading.Key, c.Reading.Chord.Root, c.Reading.Chord.Quality)))
        {
            var use = group.First();
            yield return new(RemarkKind.UnusualRoot,
                $"{ChordSpeech.Of(Chord.Of(group.Key.Root, group.Key.Quality))} stands on {NumeralSpeech.Root(use.Reading.Numeral!)}, which is seldom a root.",
                [HarmonyRemarks.Numeral(use), new("share of roots", RockRoots.Of(use.Reading.Numeral!).Measure, "data/rock-roots.tsv, quoted from memory")])
            {
                Places = [.. group.Select(c => c.Place)],
                Usualness = RockRoots.Of(use.Reading.Numeral!),
            };
        }
    }
}
