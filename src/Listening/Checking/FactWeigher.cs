using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>Weighs a song's facts: reference pitch, tuning and capo, meter, tempo, key, harp.</summary>
internal static class FactWeigher
{
    public static IEnumerable<Finding> Weigh(Song song, Hearing hearing)
    {
        yield return Pitch(song, hearing).Stating(SongFact.Pitch);
        yield return Listed(ClaimKind.Tuning, $"tuning {song.Tuning.Value}, capo {song.Capo.Value.Describe(song.Tuning.Value)}", hearing.Tuning,
            t => t.Tuning == song.Tuning.Value && t.Capo == song.Capo.Value, t =>
                $"{t.Tuning}, capo {t.Capo.Describe(t.Tuning)}", likely: 0).Tuning(hearing.Tuning.Best);
        yield return Meter(song, hearing);
        yield return Tempo(song, hearing);
        var main = hearing.Keys.MaxBy(k => (k.End - k.Start).Value)!.Key;
        yield return Listed(ClaimKind.Key, $"key {song.Key.Value}", main, k => k == song.Key.Value, k => k.ToString()).Stating(SongFact.Key);
        foreach (var finding in ChangedKeys(song, hearing))
            yield return finding;
        if (song.Harp is { } harp)
            yield return Harp(harp.Value, hearing.Lines);
    }

    private static Finding Pitch(Song song, Hearing hearing)
    {
        var off = Cents.Between(hearing.ReferencePitch.Best, song.ReferencePitch.Value).Value;
        var support = Math.Exp(-0.5 * Math.Pow(off / 8, 2)) * hearing.ReferencePitch.Confidence;
        var verdict = Math.Abs(off) <= 6 ? Verdict.Supported : Math.Abs(off) <= 15 ? Verdict.Doubtful : Verdict.Contradicted;
        var heard = string.Create(CultureInfo.InvariantCulture, $"A4 = {hearing.ReferencePitch.Best.Value:0.0} Hz");
        return new(ClaimKind.Pitch, verdict, support, null, string.Create(CultureInfo.InvariantCulture, $"A4 = {song.ReferencePitch.Value.Value:0.0} Hz"),
            verdict == Verdict.Supported ? null : heard + " heard", verdict == Verdict.Supported ? null : heard);
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
            : new(ClaimKind.Harp, Verdict.Doubtful, heard.Found.SelectMany(l => l.Kind.Candidates).Where(c => c.Value == LineKind.Harmonica).Select(c => c.Confidence).DefaultIfEmpty().Max(), null,
                $"harp in {claim.Key}", "no harmonica was made out");

    /// <summary>With the number that listening gives this tempo.</summary>
    private static Finding Tempo(Song song, Hearing hearing)
    {
        var listed = Listed(ClaimKind.Tempo, string.Create(CultureInfo.InvariantCulture, $"tempo {song.Tempo.Value:0.#}"), hearing.Tempo,
            t => SongLevel.IsSame(t, song.Tempo.Value), t => string.Create(CultureInfo.InvariantCulture, $"{t:0.0} beats a minute"));
        return SongLevel.Of(song, hearing) is { IsAsHeard: false } level
            ? new(ClaimKind.Tempo, Verdict.Doubtful, listed.Support > 0 ? listed.Support : SongLevel.LeastLikely, null, listed.Claim,
                $"{level.Words} the {listed.Heard}")
            : listed;
    }

    /// <summary>A meter at another level of the beat is weighed there: a bar that holds whole heard bars may start at any of them.</summary>
    private static Finding Meter(Song song, Hearing hearing)
    {
        var listed = Listed(ClaimKind.Meter, $"meter {song.Meter.Value}", hearing.Meter, m => m == song.Meter.Value, m => m.ToString());
        return listed.Verdict != Verdict.Supported && SongLevel.Of(song, hearing) is { IsAsHeard: false } level
            && level.HeardBarsIn(song.Meter.Value, hearing.Meter.Best) is { } bars
            ? new(ClaimKind.Meter, Verdict.Doubtful, hearing.Meter.Confidence / bars, null, listed.Claim,
                $"one bar holds {bars} of the bars of {hearing.Meter.Best} heard")
            : listed;
    }

    /// <summary>A claim among an estimate's candidates: the first is supported, a likely runner-up doubtful, one not listed contradicted if the first is sure.</summary>
    /// <param name="likely">How likely a runner-up is at least, against the first; 0 where the first is too often wrong (docs/listening.md) to rule out any.</param>
    private static Finding Listed<T>(ClaimKind kind, string claim, Distribution<T> heard, Func<T, bool> isClaim, Func<T, string> write, double likely = 0.5)
    {
        var support = heard.Candidates.Where(c => isClaim(c.Value)).Sum(c => c.Confidence);
        var verdict = isClaim(heard.Best) ? Verdict.Supported
            : (support > 0 && support >= likely * heard.Confidence) || heard.Confidence < 0.7 ? Verdict.Doubtful
            : Verdict.Contradicted;
        return verdict == Verdict.Supported
            ? new(kind, verdict, support, null, claim)
            : new(kind, verdict, support, null, claim, $"{write(heard.Best)} heard", write(heard.Best));
    }
}
