using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>Modal songs: what is native there and would be borrowed in plain major or minor.</summary>
internal static class ModeRemarks
{
    public static IEnumerable<Remark> Of(Song song, HarmonicAnalysis analysis)
    {
        var key = song.Key.Value;
        var chords = analysis.Sounding.Where(c => c.Reading.Key == key).ToList();
        if (Plain(key.Mode) != key.Mode)
            return Native(key, chords);
        return chords.All(c => c.Reading.Origin.IsNative) ? [] : WouldFit(key, chords);
    }

    private static Mode Plain(Mode mode) => mode.IsMinor ? Mode.Minor : Mode.Major;

    private static IEnumerable<Remark> Native(Key key, List<PlacedChord> chords)
    {
        var plain = key with { Mode = Plain(key.Mode) };
        foreach (var group in chords.Where(c => c.Reading.Origin.Kind == OriginKind.Native && !Fits(c, plain.Mode))
            .GroupBy(c => (c.Reading.Chord.Root, c.Reading.Chord.Quality)))
        {
            var use = group.First();
            yield return new(RemarkKind.ModalSong,
                $"{NumberWords.Sentence(NumeralSpeech.Chord(use.Reading.Numeral!))}, {Spoken(use)}, is native to {NumeralSpeech.Of(key)}; in "
                    + $"{NumeralSpeech.Of(plain)} it would be borrowed.",
                [HarmonyRemarks.Numeral(use)])
            {
                Places = [.. group.Select(c => c.Place)],
                Usualness = plain.Mode.Intervals.Any(i => i.Semitones == use.Reading.Numeral!.SemitonesAboveHome) ? null : RockRoots.Of(use.Reading.Numeral!),
            };
        }
    }

    /// <summary>Where every chord fits one other mode on the same home note and its own note is heard.</summary>
    private static IEnumerable<Remark> WouldFit(Key key, List<PlacedChord> chords)
    {
        var fitting = Mode.All.Where(m => m != key.Mode && m.IsMinor == key.Mode.IsMinor && chords.All(c => Fits(c, m))).ToList();
        var foreign = chords.Where(c => !Fits(c, key.Mode)).ToList();
        if (fitting.Count != 1 || foreign.Count == 0)
            yield break;
        var names = foreign.Select(Spoken).Distinct().ToList();
        yield return new(RemarkKind.ModalSong,
            $"Every chord fits {NumeralSpeech.Of(key with { Mode = fitting[0] })}, where {NumberWords.List(names)} {(names.Count == 1 ? "is" : "are")} native.",
            [new("chords in the mode", $"{chords.Count} of {chords.Count} chord uses", "each chord's notes compared with the mode's scale")]) { Places =
                [.. foreign.Select(c => c.Place)] };
    }

    private static bool Fits(PlacedChord chord, Mode mode) => Tones.Of(chord.Reading.Chord, chord.Reading.Key.Tonic).IsIn(Tones.Of(mode));

    private static string Spoken(PlacedChord chord) => ChordSpeech.Of(Chord.Of(chord.Reading.Chord.Root, chord.Reading.Chord.Quality));
}
