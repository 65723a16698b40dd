using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>What is worth saying about a song's harmony: its keys, the chords that aren't the key's, how sections end, other names for its shapes.</summary>
public static class HarmonyRemarks
{
    internal const string Method = "Roman numerals by Harkbook's rules, docs/roman-numerals.md";

    public static IEnumerable<Remark> Of(Song song)
    {
        var analysis = HarmonicAnalysis.Of(song);
        return KeyRemarks.Of(song, analysis)
            .Concat(ModeRemarks.Of(song, analysis))
            .Concat(ForeignChordRemarks.Of(analysis))
            .Concat(BluesRemarks.Of(song, analysis))
            .Concat(BassRemarks.Of(analysis))
            .Concat(AbsenceRemarks.Of(song, analysis))
            .Concat(CadenceRemarks.Of(analysis))
            .Concat(NameRemarks.Of(song, analysis))
            .Concat(SpellingRemarks.Of(analysis));
    }

    internal static RemarkFact Numeral(PlacedChord chord) => new("numeral", $"{chord.Reading.Numeral} in {chord.Reading.Key}", Method);
}
