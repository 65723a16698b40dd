using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>Weighs a song's facts: reference pitch, tuning and capo, meter, tempo, key, harp.</summary>
internal static class FactWeigher
{
    /// <summary>What isn't listed may still be so.</summary>
    private const double LeastListed = 0.01;

    public static IEnumerable<Finding> Weigh(Song song, Hearing hearing)
    {
        yield return Pitch(song, hearing).Stating(SongFact.Pitch);
        yield return Listed(ClaimKind.Tuning, $"tuning {song.Tuning.Value}, capo {song.Capo.Value.Describe(song.Tuning.Value)}", hearing.Tuning,
            t => t.Tuning == song.Tuning.Value && t.Capo == song.Capo.Value, t =>
                $"{t.Tuning}, capo {t.Capo.Describe(t.Tuning)}").Tuning(hearing.Tuning.Best);
        yield return Meter(song, hearing);
        yield return Tempo(song, hearing);
        if (hearing.MainKey is { } main)
            yield return Listed(ClaimKind.Key, $"key {song.Key.Value}", main, k => k == song.Key.Value, k => k.ToString()).Stating(SongFact.Key);
        foreach (var finding in ChangedKeys(song, hearing))
            yield return finding;
        if (song.Harp is { } harp)
            yield return Harp(harp.Value, hearing.Lines);
    }

    /// <summary>Deviation of a pitch that was heard right, in cents; a person may write another with any of some hundred.</summary>
    private static Finding Pitch(Song song, Hearing hearing)
    {
        const double Spread = 6, Range = 100;
        var off = Cents.Between(hearing.ReferencePitch.Best, song.ReferencePitch.Value).Value;
        var near = hearing.ReferencePitch.Confidence * Math.Exp(-0.5 * off * off / (Spread * Spread)) / (Spread * Math.Sqrt(2 * Math.PI));
        var logOdds = Math.Log((near + (1 - hearing.ReferencePitch.Confidence) / Range + 1e-6) * Range / 10);
        var heard = string.Create(CultureInfo.InvariantCulture, $"A4 = {hearing.ReferencePitch.Best.Value:0.0} Hz");
        return Finding.Weighed(ClaimKind.Pitch, logOdds, null, string.Create(CultureInfo.InvariantCulture, $"A4 = {song.ReferencePitch.Value.Value:0.0} Hz"),
            heard + " heard", heard) with { Rival = new(heard, -logOdds) };
    }

    /// <summary>Each change of key against the key that is heard longest until the next.</summary>
    private static IEnumerable<Finding> ChangedKeys(Song song, Hearing hearing)
    {
        var clock = new SongClock(song);
        var first = 1;
        foreach (var (section, index) in song.Sections.Select((s, i) => (s, i)))
        {
            for (var i = 0; i < section.Keys.Length; i++)
            {
                var (bar, end) = (first + section.Keys[i].Bar - 1, first + (i + 1 < section.Keys.Length ? section.Keys[i + 1].Bar - 1 : section.Bars.Length));
                var (from, to) = (clock.TimeOf(bar), clock.TimeOf(end));
                var heard = hearing.Keys.MaxBy(k => Math.Min(k.End.Value, to.Value) - Math.Max(k.Start.Value, from.Value))!.Key;
                var key = section.Keys[i].Key;
                yield return Listed(ClaimKind.Key, $"key {key} from bar {bar}", heard, k => k == key, k => k.ToString()).ChangingKey(index,
                    section.Keys[i]) with { Where = new(from, bar, 1) };
            }
            first += section.Bars.Length;
        }
    }

    private static Finding Harp(HarpReference claim, HeardLines heard) =>
        heard.Of(LineKind.Harmonica)?.Harp is { } ranked
            ? Listed(ClaimKind.Harp, $"harp in {claim.Key}", ranked, h => h.Key.PitchClass == claim.Key.PitchClass, h => $"a harp in {h.Key}")
            : Finding.Weighed(ClaimKind.Harp, 0, null, $"harp in {claim.Key}", "no harmonica was made out");

    /// <summary>A tempo at another level of the heard one is doubtful with the number that listening gives it; its bars are weighed at that level.</summary>
    private static Finding Tempo(Song song, Hearing hearing)
    {
        var listed = Listed(ClaimKind.Tempo, string.Create(CultureInfo.InvariantCulture, $"tempo {song.Tempo.Value:0.#}"), hearing.Tempo,
            t => SongLevel.IsSame(t, song.Tempo.Value), t => t > 0 ? string.Create(CultureInfo.InvariantCulture, $"{t:0.0} beats a minute") : "no beat");
        return SongLevel.Of(song, hearing) is { IsAsHeard: false } level
            ? new(ClaimKind.Tempo, Verdict.Doubtful, Math.Max(LogOdds.Chance(listed.LogOdds!.Value), SongLevel.LeastLikely), null, listed.Claim,
                Level(level, hearing))
            : listed;

        string Level(SongLevel of, Hearing heard)
        {
            var share = Share(heard.Tempo.Candidates.Where(c => SongLevel.IsSame(c.Value, song.Tempo.Value)));
            return string.Create(CultureInfo.InvariantCulture, $"{of.Words} the {heard.Tempo.Best:0.0} beats a minute heard{share}");
        }
    }

    /// <summary>", 23%"; nothing where listening doesn't list it.</summary>
    private static string Share<T>(IEnumerable<Candidate<T>> listed) =>
        listed.Sum(c => c.Confidence) is > 0 and var share ? string.Create(CultureInfo.InvariantCulture, $", {share * 100:0}%") : "";

    /// <summary>A meter at another level of the beat is weighed there: a bar that holds whole heard bars may start at any of them.</summary>
    private static Finding Meter(Song song, Hearing hearing)
    {
        var listed = Listed(ClaimKind.Meter, $"meter {song.Meter.Value}", hearing.Meter, m => m == song.Meter.Value, m => m.ToString());
        return hearing.Meter.Best != song.Meter.Value && SongLevel.Of(song, hearing) is { IsAsHeard: false } level
            && level.HeardBarsIn(song.Meter.Value, hearing.Meter.Best) is { } bars
            ? new(ClaimKind.Meter, Verdict.Doubtful, hearing.Meter.Confidence / bars, null, listed.Claim,
                $"one bar holds {bars} of the bars of {hearing.Meter.Best} heard")
            : listed;
    }

    /// <summary>A claim among an estimate's candidates, by the share that these give it, against the first of the others.</summary>
    private static Finding Listed<T>(ClaimKind kind, string claim, Distribution<T> heard, Func<T, bool> isClaim, Func<T, string> write)
    {
        var logOdds = LogOdds.Of(heard.Candidates.Where(c => isClaim(c.Value)).Sum(c => c.Confidence), LeastListed);
        return heard.Candidates.FirstOrDefault(c => !isClaim(c.Value)) is not { } other
            ? Finding.Weighed(kind, logOdds, null, claim)
            : Finding.Weighed(kind, logOdds, null, claim, $"{write(other.Value)} heard", write(other.Value)) with
            {
                Rival = new(write(other.Value), LogOdds.Of(other.Confidence, LeastListed) - logOdds),
            };
    }
}
