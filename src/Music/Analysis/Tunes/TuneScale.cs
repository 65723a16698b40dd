using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Tunes;

/// <summary>
/// The scale that a tune keeps to: the smallest of the pentatonic, blues and seven-note scales on the key's tonic that holds all of its notes; of scales
/// of one size the key's own, else the first as <see cref="Order"/> has them. Fewer than five different notes keep to no scale in particular.
/// </summary>
internal sealed record TuneScale(Scale Scale, ImmutableArray<PlacedTuneNote> Outside)
{
    private const int FewestNotes = 5;

    /// <summary>Notes outside, as a share of all, that leave a scale named.</summary>
    private const double MostOutside = 0.05;

    private static readonly ImmutableArray<Scale> Order =
        [Scale.MajorPentatonic, Scale.MinorPentatonic, Scale.Blues, Scale.MajorBlues, .. Mode.All.Select(Scale.Of), Scale.HarmonicMinor, Scale.MelodicMinor];

    /// <summary>Null where none holds them.</summary>
    public static TuneScale? Of(IReadOnlyCollection<PlacedTuneNote> notes, Key key)
    {
        if (notes.Select(n => n.Pitch.Name.PitchClass).Distinct().Count() < FewestNotes)
            return null;
        var fitting = Order.Select(scale => new TuneScale(scale, Beyond(notes, scale, key))).Where(s => s.Outside.Length <= MostOutside * notes.Count);
        return fitting.OrderBy(s => s.Outside.Length > 0).ThenBy(s => s.Scale.Intervals.Length).ThenBy(s => s.Scale != Scale.Of(key.Mode))
            .ThenBy(s => Order.IndexOf(s.Scale)).FirstOrDefault();
    }

    private static ImmutableArray<PlacedTuneNote> Beyond(IEnumerable<PlacedTuneNote> notes, Scale scale, Key key)
    {
        var held = scale.On(key.Tonic).Select(n => n.PitchClass).ToHashSet();
        return [.. notes.Where(n => !held.Contains(n.Pitch.Name.PitchClass))];
    }
}
