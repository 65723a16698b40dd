using System.Collections.Immutable;
using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Bench.Planted;

/// <summary>What planting in songs needs: other bars, other claims in a bar, and findings by their place.</summary>
internal static class SongParts
{
    /// <summary>Where what wasn't written is heard: this near in time, in seconds.</summary>
    private const double Near = 0.09;

    public static Song With(this Song song, int number, Func<Bar, Bar> change) => song with
    {
        Sections = [.. song.Sections.Select(s => s with { Bars = [.. s.Bars.Select(b => b.Number == number ? change(b) : b)] })],
    };

    public static ImmutableArray<Claim<T>> With<T>(this ImmutableArray<Claim<T>> claims, Claim<T> old, Claim<T>? put) =>
        [.. claims.Where(c => !ReferenceEquals(c, old)).Concat(put is null ? [] : [put]).OrderBy(c => c.Start)];

    public static Func<Finding, bool> At(Bar bar, Beats start) =>
        f => f.Where?.Bar == bar.Number && f.Where.Beat is { } beat && Math.Abs(beat - start.Value - 1) < 0.01;

    public static Func<Finding, bool> About(Seconds time) => f => f.Where is { } place && Math.Abs((place.Time - time).Value) < Near;

    /// <summary>What is claimed, by its place in the song; what isn't, by the time.</summary>
    public static Func<Finding, bool> Either(Func<Finding, bool> claimed, Seconds silent) =>
        f => f.Kind is ClaimKind.Silence or ClaimKind.StillHand ? About(silent)(f) : claimed(f);

    /// <summary>An eighth in 4/4 and 6/8.</summary>
    public static Beats Eighth(Bar bar) => Beats.Fraction(1, bar.Meter.DivisionsPerBeat);

    /// <summary>Places an eighth apart through a bar.</summary>
    public static IEnumerable<Beats> Eighths(Bar bar)
    {
        for (var at = Beats.Zero; at < bar.Meter.BarLength; at += Eighth(bar))
            yield return at;
    }

    /// <summary>An eighth earlier and later, where that lies in the bar and nothing starts there.</summary>
    public static IEnumerable<Beats> Moved<T>(Bar bar, Claim<T> claim, IEnumerable<Claim<T>> others) =>
        new[] { claim.Start - Eighth(bar), claim.Start + Eighth(bar) }.Where(s => s >= Beats.Zero && s < bar.Meter.BarLength && others.All(o => o.Start != s));
}
