using System.Collections.Immutable;
using Harkbook.Listening.Checking;

namespace Harkbook.Bench.Planted;

/// <summary>Checks right transcriptions as they are, and again and again with one error each.</summary>
/// <param name="Lengths">How many minutes each recording lasts, by its group and name.</param>
internal sealed record PlantedRun(
    ImmutableArray<PlantedRow> Planted, ImmutableArray<RightRow> Right, ImmutableDictionary<(string Group, string Name), double> Lengths)
{
    /// <summary>How long each group's recordings are.</summary>
    public ImmutableDictionary<string, double> Minutes { get; } =
        Lengths.GroupBy(l => l.Key.Group).ToImmutableDictionary(g => g.Key, g => g.Sum(l => l.Value));

    /// <param name="places">How many errors of a kind are planted in a transcription, at most.</param>
    public static PlantedRun Of(IReadOnlyList<Material> materials, int places, int seed)
    {
        var done = 0;
        var of = materials.Select((m, i) => (Material: m, Chance: new Random(seed * 1000 + i))).AsParallel().AsOrdered().Select(m =>
        {
            var checkedOnes = Of(m.Material, m.Chance, places);
            Console.Error.WriteLine($"{Interlocked.Increment(ref done)}/{materials.Count} {m.Material.Group} {m.Material.Name}: "
                + $"{checkedOnes.Right.Length} claims, {checkedOnes.Planted.Length} errors planted");
            return checkedOnes;
        }).ToArray();
        return new([.. of.SelectMany(o => o.Planted)], [.. of.SelectMany(o => o.Right)],
            materials.ToImmutableDictionary(m => (m.Group, m.Name), m => m.Minutes));
    }

    private static (ImmutableArray<PlantedRow> Planted, ImmutableArray<RightRow> Right) Of(Material material, Random chance, int places)
    {
        var checker = new Checker(material.Hearing) { TellsAll = true };
        var result = material.Song is { } song ? checker.Check(song) : checker.Check(material.Annotation!);
        var planted = ImmutableArray.CreateBuilder<PlantedRow>();
        foreach (var kind in ErrorsIn(material, chance).GroupBy(e => e.Kind))
        {
            foreach (var error in kind.OrderBy(_ => chance.Next()).Take(places))
                planted.Add(new(material.Group, material.Name, error, error.In(error.CheckedBy(checker))));
        }
        return (planted.ToImmutable(), [.. result.Findings.Select(f => new RightRow(material.Group, material.Name, f))]);
    }

    private static IEnumerable<PlantedError> ErrorsIn(Material material, Random chance)
    {
        if (material.Song is not { } song)
            return new AnnotationErrors(material.Annotation!, chance).All();
        var clock = new Music.Songs.SongClock(song);
        return new PickedErrors(song, clock, chance).All().Concat(new ShapeErrors(song, chance).All()).Concat(ChordErrors.In(song, chance))
            .Concat(new BarErrors(song, clock).All())
            .Concat(new StrokeErrors(song, clock, chance).All()).Concat(new VoiceErrors(song, chance).All()).Concat(new FactErrors(song, chance).All());
    }
}
