using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Listening;

/// <summary>The one definition of a song's key.</summary>
internal static class MainKey
{
    /// <summary>
    /// The key that is heard longest, surer stretches counting more; as likely as it is in its stretches on the whole. Null where there are none.
    /// </summary>
    public static Distribution<Key>? Of(ImmutableArray<HeardKey> keys) =>
        keys.GroupBy(k => k.Key.Best).MaxBy(same => same.Sum(k => Seconds(k) * k.Key.Confidence)) is { } main ? Mean([.. main]) : null;

    private static Distribution<Key> Mean(HeardKey[] stretches)
    {
        var total = stretches.Sum(Seconds);
        return new([.. stretches
            .SelectMany(k => k.Key.Candidates, (k, c) => c with { Confidence = c.Confidence * (total > 0 ? Seconds(k) / total : 1.0 / stretches.Length) })
            .GroupBy(c => c.Value)
            .Select(same => same.First() with { Confidence = same.Sum(c => c.Confidence) })]);
    }

    private static double Seconds(HeardKey key) => (key.End - key.Start).Value;
}
