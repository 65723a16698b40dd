using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Workbench.Desk;

/// <summary>One thing in which a song differs from what it was.</summary>
/// <param name="Words">As a person would say it: "bar 3: G/D, was G".</param>
/// <param name="Bar">Null for the whole song.</param>
/// <param name="Back">Decides it as it was, and nothing else; null where it can't be taken back alone.</param>
public sealed record Difference(string Words, int? Bar, Func<SongDocument, SongDocument>? Back)
{
    public static ImmutableArray<Difference> Between(Song before, Song after) =>
        [.. Facts(before, after), .. Shapes(before, after), .. Bars(before, after)];

    private static IEnumerable<Difference> Facts(Song before, Song after)
    {
        (SongFact Fact, string Was, string Is)[] facts =
        [
            (SongFact.Tuning, $"{before.Tuning.Value}", $"{after.Tuning.Value}"),
            (SongFact.Capo, FactWords.Capo(before), FactWords.Capo(after)),
            (SongFact.Key, $"{before.Key.Value}", $"{after.Key.Value}"),
            (SongFact.Meter, $"{before.Meter.Value}", $"{after.Meter.Value}"),
            (SongFact.Harp, $"{before.Harp?.Value}", $"{after.Harp?.Value}"),
        ];
        return facts.Where(f => f.Was != f.Is).Select(f => new Difference($"{f.Fact.ToString().ToLowerInvariant()}: {f.Is}, was {f.Was}", null,
            f.Fact is SongFact.Meter || f.Was.Length == 0 ? null : d => d.WithFact(f.Fact, f.Was, Standing.Decided)));
    }

    private static IEnumerable<Difference> Shapes(Song before, Song after) =>
        from now in after.Shapes
        let was = before.Shapes.FirstOrDefault(s => s.Name == now.Name)
        where was is not null && was.Shape.WithoutFingers() != now.Shape.WithoutFingers()
        select new Difference($"shape {now.Name}: {now.Shape}, was {was.Shape}", null, d => d.WithShape(now.Name, was.Shape, Standing.Decided));

    private static IEnumerable<Difference> Bars(Song before, Song after)
    {
        var (old, now) = (before.Bars.ToList(), after.Bars.ToList());
        return old.Count == now.Count && old.Zip(now).All(b => b.First.Meter == b.Second.Meter) ? old.Zip(now).SelectMany(b => Chords(b.First, b.Second))
            : [new($"{now.Count} bars, were {old.Count}", null, null)];
    }

    private static IEnumerable<Difference> Chords(Bar old, Bar now) =>
        from chord in now.Chords
        let was = old.Chords.LastOrDefault(c => c.Start <= chord.Start)
        where was is not null && was.Value.Name != chord.Value.Name
        select new Difference($"bar {now.Number}: {chord.Value.Name}, was {was.Value.Name}", now.Number,
            d => d.WithChord(now.Number, chord.Start, was.Value.Name, Standing.Decided));
}
