using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Analysis.Songbooks;

/// <summary>One shape of the hand in one tuning, wherever the songbook uses it. The capo may differ: the hand does the same.</summary>
public sealed record Grip(Tuning Tuning, Shape Shape, ImmutableArray<ShapeUse> Uses)
{
    /// <summary>Names that the songs' files give it, each once, the commonest first.</summary>
    public ImmutableArray<string> Names =>
        [.. Uses.GroupBy(u => u.Own).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).Select(g => g.Key)];

    public int Songs => Uses.Select(u => u.Song).Distinct(ReferenceEqualityComparer.Instance).Count();

    public int Bars => Uses.Sum(u => u.Bars.Length);

    /// <summary>All grips of some songs, the most used first. Tunings that sound alike are one.</summary>
    public static ImmutableArray<Grip> In(IEnumerable<ShapeUse> uses) =>
        [.. uses.GroupBy(u => (string.Join(' ', u.Song.Tuning.Value.Strings.Select(s => s.Midi)), u.Shape.ToString()))
            .Select(g => new Grip(g.First().Song.Tuning.Value, g.First().Shape, [.. g]))
            .OrderByDescending(g => g.Songs).ThenByDescending(g => g.Bars)];
}
