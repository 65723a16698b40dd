using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony;

/// <summary>Chords over a bass that stays, and native chords on roots that are seldom one.</summary>
internal static class BassRemarks
{
    public static IEnumerable<Remark> Of(HarmonicAnalysis analysis) => Pedals(analysis).Concat(Roots(analysis));

    private static IEnumerable<Remark> Pedals(HarmonicAnalysis analysis)
    {
        foreach (var group in analysis.Sounding.Where(c => c.IsOverPedal).GroupBy(c => (c.Reading.Key, c.Reading.Chord)))
        {
            var (key, chord) = group.Key;
            var use = group.First();
            var bass = FunctionalDegree.Above(chord.Bass, key) switch { 0 => $"the home note, {ChordSpeech.Of(chord.Bass)},", 7 => $"the fifth of the key, {ChordSpeech.Of(chord.Bass)},", _ => $"{ChordSpeech.Of(chord.Bass)}," };
            yield return new(RemarkKind.PedalBass, $"{ChordSpeech.Of(chord)} is {NumeralSpeech.Chord(use.Reading.Numeral!)} over {bass} which stays in the bass while the chord changes.",
                [HarmonyRemarks.Numeral(use), new("bass", $"{chord.Bass}, as in the chords around it", "basses of neighbouring chords compared")]) { Places = [.. group.Select(c => c.Place)] };
        }
    }

    /// <summary>A root of plain major or minor; what a mode brings is told with the mode.</summary>
    private static bool IsPlain(ChordInContext reading) =>
        (reading.Key.Mode.IsMinor ? Mode.Minor : Mode.Major).Intervals.Append(Interval.FromDegree(7, 0)).Any(i => i.Semitones == reading.Numeral!.SemitonesAboveHome);

    private static IEnumerable<Remark> Roots(HarmonicAnalysis analysis)
    {
        var rare = analysis.Sounding.Where(c => c.Reading.Origin.Kind is OriginKind.Native or OriginKind.LeadingNote && IsPlain(c.Reading) && RockRoots.Of(c.Reading.Numeral!).Frequency == Frequency.Rare);
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
