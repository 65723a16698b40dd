using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Remarks;

/// <summary>The song's key and scale, and bars in other keys.</summary>
internal static class KeyRemarks
{
    public static IEnumerable<Remark> Of(Song song, HarmonicAnalysis analysis)
    {
        var key = song.Key.Value;
        var sounding = analysis.Sounding.ToList();
        if (sounding.Count == 0)
            yield break;
        yield return new(RemarkKind.KeyOfTheSong,
            $"{Stated(song.Key.Standing)} {NumeralSpeech.Of(key)}: {NumberWords.List([.. key.Notes.Select(n => ChordSpeech.Of(n))])}.{Apart(key)}",
            [
                new("key", key.ToString(), Source(song.Key.Standing)),
                new("chords of the key", $"{sounding.Count(c => c.Reading.Origin.IsNative)} of {sounding.Count} chord uses", HarmonyRemarks.Method),
            ]);
        foreach (var remark in Bars(song).GroupBy(b => b.Key).Where(g => g.Key != key).Select(g => Change(song, g.Key, [.. g.Select(b => b.Bar)], analysis)))
            yield return remark;
    }

    private static string Stated(Standing standing) => standing.Kind switch
    {
        StandingKind.Assumed => "Nobody has said the song's key, so all of this takes it to be in",
        StandingKind.Heard => "The song is heard in",
        _ => "The song is in",
    };

    private static string Source(Standing standing) => standing switch
    {
        { Kind: StandingKind.Assumed } => "assumed, since no line of the song says it",
        { Kind: StandingKind.Heard, Confidence: { } sure } => string.Create(CultureInfo.InvariantCulture, $"as heard, {sure * 100:0}% sure"),
        { Kind: StandingKind.Heard } => "as heard",
        _ => "as the song says",
    };

    /// <summary>What tells a mode from plain major or minor.</summary>
    private static string Apart(Key key)
    {
        var plain = key.Mode.IsMinor ? Mode.Minor : Mode.Major;
        var own = key.Mode.Intervals.Except(plain.Intervals).ToList();
        return own.Count == 0 ? ""
            : $" Its {NumberWords.List([.. own.Select(ChordSpeech.Degree)])}, {NumberWords.List([.. own.Select(i => ChordSpeech.Of(key.Tonic + i))])}, "
                + $"{(own.Count == 1 ? "sets" : "set")} it apart from {NumeralSpeech.Of(key with { Mode = plain })}.";
    }

    private static IEnumerable<(Key Key, Bar Bar)> Bars(Song song) =>
        song.Sections.SelectMany(s => s.Bars.Select((bar, i) => (s.KeyAt(i + 1, song.Key.Value), bar)));

    private static Remark Change(Song song, Key key, ImmutableArray<Bar> bars, HarmonicAnalysis analysis)
    {
        var stretches = PlaceWords.Runs(bars.Select(b => b.Number)).Select(r => PlaceWords.Bars(r.First, r.Last)).ToList();
        var pivots = analysis.Chords.Where(c => c.Pivot is not null && (c.Reading.Key == key || bars.Any(b => b.Number == c.Place.Bar + 1)))
            .Where(c => c.Reading.Key == song.Key.Value).DistinctBy(c => c.Reading.Chord).ToList();
        var joins = pivots.Count == 0 ? ""
            : $" {NumberWords.List([.. pivots.Select(p => ChordSpeech.Of(p.Reading.Chord))])} {(pivots.Count == 1 ? "belongs" : "belong")} to both keys and "
            + $"{(pivots.Count == 1 ? "joins" : "join")} them.";
        return new(RemarkKind.KeyChange,
            $"{NumberWords.Sentence(NumberWords.List(stretches))} {(bars.Length == 1 ? "is" : "are")} in "
                + $"{NumeralSpeech.Of(key)}{Relation(song.Key.Value, key)}.{joins}",
            [new("key", key.ToString(), "as the song says"),
                .. pivots.Select(p => new RemarkFact("pivot", $"{p.Reading.Chord}: {p.Reading.Numeral} in {p.Reading.Key}, {p.Pivot} in {key}",
                HarmonyRemarks.Method))])
        {
            Places = [.. bars.Select(SongPlace.Of)],
        };
    }

    private static string Relation(Key song, Key key) =>
        key.Signature == song.Signature ? $", which has the same notes as {NumeralSpeech.Of(song)}"
        : key.Tonic == song.Tonic ? ", on the same home note"
        : Floor.Mod(key.Tonic.PitchClass - song.Tonic.PitchClass, 12) switch
        {
            1 => ", a half step up",
            2 => ", a whole step up",
            7 => ", a fifth up",
            5 => ", a fourth up",
            10 => ", a whole step down",
            11 => ", a half step down",
            _ => "",
        };
}
