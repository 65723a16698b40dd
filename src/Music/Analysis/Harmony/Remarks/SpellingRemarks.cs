using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>Chords that sound as their function asks but are written under another root. The song's name stays.</summary>
internal static class SpellingRemarks
{
    public static IEnumerable<Remark> Of(HarmonicAnalysis analysis) =>
        analysis.Sounding.Where(c => ByFunction(c.Reading) is not null).GroupBy(c => (c.Reading.Key, c.Reading.Chord.Root, c.Reading.Numeral))
            .Select(g => Remark([.. g]));

    /// <summary>The root's name by function; null where it has that name, or where the name would need a double sign.</summary>
    private static PitchName? ByFunction(ChordInContext reading)
    {
        var root = reading.Numeral!.In(reading.Key).Root;
        return root.PitchClass == reading.Chord.Root.PitchClass && root != reading.Chord.Root && Math.Abs(root.Alteration) <= 1 ? root : null;
    }

    private static Remark Remark(List<PlacedChord> uses)
    {
        var reading = uses[0].Reading;
        var (written, meant) = (ChordSpeech.Of(reading.Chord.Root), ChordSpeech.Of(ByFunction(reading)!.Value));
        return new(RemarkKind.OtherSpelling,
            $"The root written {written} is {meant} in {NumeralSpeech.Of(reading.Key)}: {NumeralSpeech.Chord(reading.Numeral!)}.",
            [HarmonyRemarks.Numeral(uses[0])])
        {
            Places = [.. uses.Select(c => c.Place)],
        };
    }
}
