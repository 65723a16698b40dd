using System.Globalization;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Retuning;

/// <summary>What is worth saying about getting to a song's tuning from the instrument's usual one. A song in that has no remark.</summary>
public static class RetuningRemarks
{
    private const string Compared = "open strings compared, semitones";
    private const string Mersenne = "Mersenne's law: tension grows with the square of frequency on the same string";
    private const double UsualShare = 0.2;
    private const double UncommonShare = 0.02;

    public static IEnumerable<Remark> Of(Song song)
    {
        var (tuning, usual) = (song.Tuning.Value, UsualFor(song.Tuning.Value));
        if (usual is null || TuningChange.Between(usual.Tuning, tuning) is not { Turned: > 0 } change)
            yield break;
        yield return FromUsual(tuning, usual, change);
        if (change.Strings.Any(s => s.Semitones > 0))
            yield return Tightened(change, usual.Instrument);
    }

    private static Remark FromUsual(Tuning tuning, NamedTuning usual, TuningChange change)
    {
        var directions = new[] { ("down", change.Strings.Where(s => s.Semitones < 0).ToArray()), ("up", change.Strings.Where(s => s.Semitones > 0).ToArray()) }
            .Where(d => d.Item2.Length > 0)
            .Select(d => $"{NumberWords.Of(d.Item2.Length, "string")} {(d.Item2.Length == 1 ? "goes" : "go")} {d.Item1}: "
                + $"{NumberWords.List([.. d.Item2.Select(How)])}");
        return new(RemarkKind.RetuneFromUsual,
            $"The {usual.Instrument} is tuned to {TuningCatalogue.Describe(tuning, usual.Instrument)}. From standard, {string.Join("; ", directions)}.",
            [.. change.InOrder.Select(s => new RemarkFact($"string {s.Number}",
                string.Create(CultureInfo.InvariantCulture, $"{s.From} to {s.To}, {s.Semitones:+0;-0} semitones, {s.TensionRatio:0%} of the tension"),
                $"{Compared}; {Mersenne}"))])
        {
            Usualness = HowUsual(tuning),
        };
    }

    private static Remark Tightened(TuningChange change, string instrument)
    {
        var up = change.Strings.Where(s => s.Semitones > 0).OrderByDescending(s => s.TensionRatio).ToArray();
        var way = change.Looser(instrument).FirstOrDefault() is { } same
            ? $" {NumberWords.Sentence(same.Tuning.Name)} with a capo at fret {same.Capo.Fret} sounds the same, and fewer strings go up."
            : "";
        return new(RemarkKind.StringTunedUp,
            $"{(up.Length == 1 ? $"The {NumberWords.Ordinal(up[0].Number)} string goes" : $"{NumberWords.Capital(up.Length)} strings go")} above standard, "
                + $"with up to {More(up[0])} percent more tension, which loads the neck and may break a string: turn slowly, and keep your eyes away from "
                + $"it.{way}",
            [.. up.Select(s => new RemarkFact($"string {s.Number}", $"{More(s)} percent more tension", Mersenne))]);
    }

    private static string How(StringChange s) =>
        $"the {NumberWords.Ordinal(s.Number)} {(Math.Abs(s.Semitones) == 1 ? "a semitone" : $"{NumberWords.Of(Math.Abs(s.Semitones))} semitones")} to "
            + $"{ChordSpeech.Of(s.To.Name)}";

    private static string More(StringChange s) => (100 * (s.TensionRatio - 1)).ToString("0", CultureInfo.InvariantCulture);

    private static Usualness? HowUsual(Tuning tuning)
    {
        if (TuningCatalogue.EntriesFor(tuning).FirstOrDefault(t => t.Instrument == TuningCatalogue.Guitar) is not { } named)
            return null;
        var share = TuningHabits.ShareOf(named);
        return new(share >= UsualShare ? Frequency.Usual : share >= UncommonShare ? Frequency.Uncommon : Frequency.Rare,
            string.Create(CultureInfo.InvariantCulture, $"about {share:0.#%} of songs on guitar (our own estimate, nobody has counted)"));
    }

    /// <summary>The tuning that strings are sold for: the first of the instrument's rows; the guitar's for six strings that nobody named.</summary>
    private static NamedTuning? UsualFor(Tuning tuning)
    {
        var instrument = TuningCatalogue.EntriesFor(tuning) is [var named, ..] ? named.Instrument : TuningCatalogue.Guitar;
        return TuningCatalogue.All.FirstOrDefault(t => t.Instrument == instrument && t.Tuning.Count == tuning.Count);
    }
}
