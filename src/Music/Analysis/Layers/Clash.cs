using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>How two notes of different layers rub.</summary>
public enum ClashKind
{
    /// <summary>A semitone apart, or a semitone and octaves, the upper above the lower: a minor second or ninth.</summary>
    Semitone,

    /// <summary>The same letter under two signs, as C against C sharp.</summary>
    CrossRelation,
}

/// <summary>Two notes of different layers that rub against each other.</summary>
public readonly record struct Clash(ClashKind Kind, LayerNote Lower, LayerNote Higher)
{
    /// <summary>Those that sound at one moment. A pair that is both is a cross relation.</summary>
    public static ImmutableArray<Clash> In(Moment moment) => Among(moment.Notes);

    /// <inheritdoc cref="In"/>
    public static ImmutableArray<Clash> Among(IReadOnlyCollection<LayerNote> notes) =>
    [
        .. from lower in notes
           from higher in notes
           where lower.Layer != higher.Layer && lower.Pitch.Midi < higher.Pitch.Midi
           let kind = KindOf(lower.Pitch, higher.Pitch)
           where kind is not null
           select new Clash(kind.Value, lower, higher),
    ];

    private static ClashKind? KindOf(Pitch lower, Pitch higher) =>
        lower.Name.Letter == higher.Name.Letter && lower.Name != higher.Name ? ClashKind.CrossRelation
        : (higher.Midi - lower.Midi) % 12 == 1 ? ClashKind.Semitone
        : null;
}
