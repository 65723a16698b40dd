using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>Two parts that sound together outside any song: two shapes, or a shape and a breath.</summary>
/// <param name="Chord">What the two make.</param>
/// <param name="Notes">From the lowest up.</param>
/// <param name="Clashes">Between the two.</param>
/// <param name="Roughness">Of all notes, each pitch once.</param>
/// <param name="Between">What the two add by sounding together.</param>
public sealed record LayerPair(LayeredChord Chord, ImmutableArray<LayerNote> Notes, ImmutableArray<Clash> Clashes, double Roughness, double Between)
{
    /// <param name="lower">The chord that the lower part is called by; null takes its likeliest name.</param>
    /// <param name="below">The lower part's notes, one or more.</param>
    /// <param name="above">The upper part's notes, one or more.</param>
    public static LayerPair Of(Chord? lower, IReadOnlyCollection<LayerNote> below, IReadOnlyCollection<LayerNote> above, Key? key = null)
    {
        if (below.Count == 0 || above.Count == 0)
            throw new ArgumentException("Each part sounds a note or more.", below.Count == 0 ? nameof(below) : nameof(above));
        lower ??= ChordNaming.Rank(below.Select(n => n.Pitch), key)[0].Chord;
        ImmutableArray<LayerNote> all = [.. below.Concat(above).OrderBy(n => n.Pitch.Midi)];
        var chord = LayeredChord.Of(lower, [.. below.Select(n => n.Pitch.Name)], all[0].Pitch.Name,
            [.. above.OrderBy(n => n.Pitch.Midi).Select(n => n.Pitch.Name)], key);
        var (together, between) = Layers.Roughness.OfLayers(below, above, Hertz.A440);
        return new(chord, all, Clash.Among(all), together, between);
    }

    /// <summary>A shape's notes, from the low string up.</summary>
    public static ImmutableArray<LayerNote> OfShape(Layer layer, Shape shape, Tuning tuning, Capo capo, Key? key = null)
    {
        var pitches = shape.PitchOfEachString(tuning, capo, key?.Centre ?? 2);
        return
        [
            .. Enumerable.Range(0, pitches.Length).Where(i => pitches[i] is not null)
                .Select(i => LayerNote.OnString(layer, pitches[i]!.Value, tuning.StringNumber(i), shape.Frets[i]!.Value)),
        ];
    }

    /// <summary>A harmonica's notes on one breath, from the lowest hole up.</summary>
    public static ImmutableArray<LayerNote> OfBreath(BreathChord breath) =>
        [.. breath.Notes.Zip(breath.Pitches, (note, pitch) => new LayerNote(Layer.Harmonica, pitch, BreathWords.Of(note)))];
}
