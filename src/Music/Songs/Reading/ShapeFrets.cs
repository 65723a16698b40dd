using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Where a picked cell is "*": what the shape of the moment has on a string, and on which string its bass lies.</summary>
internal sealed class ShapeFrets(DiagnosticBag bag, Tuning? tuning)
{
    public const string Sign = "*";

    private readonly HashSet<(string, int)> said = [];

    /// <summary>The fret that the shape has on a string; null, and said once for a chord, where it has none.</summary>
    public int? FretOf(Leaf leaf, int stringIndex, ChordUse? chord, string where)
    {
        if (chord?.Shape is not { } shape)
            return Shapeless(leaf, chord, where);
        var fret = stringIndex < shape.Frets.Length ? shape.Frets[stringIndex] : null;
        if (fret is null && tuning is not null && said.Add((chord.Name, stringIndex)))
            bag.Add(DiagnosticCode.MutedString, leaf.Value.Span,
                $"The shape of {chord.Name} ({shape}) mutes {tuning.Strings[stringIndex]}, so {Sign} plays nothing there.",
                $"Write another fret or string in that bar, or have the pattern's lowest notes on a line '{StringLines.Bass}'.");
        return fret;
    }

    /// <summary>The string on which the shape sounds lowest.</summary>
    public int? BassOf(Leaf leaf, ChordUse? chord, string where)
    {
        if (!leaf.Value.Text.StartsWith(Sign, StringComparison.Ordinal))
            bag.Add(DiagnosticCode.BadPickedNote, leaf.Value.Span,
                $"On the line '{StringLines.Bass}' stands {Sign} where the lowest string of the shape is picked; a fret needs its string's own line.");
        if (chord?.Shape is not { } shape)
            return Shapeless(leaf, chord, where);
        return tuning is null ? null : Enumerable.Range(0, Math.Min(tuning.Count, shape.Frets.Length)).Where(i => shape.Frets[i] is not null)
            .Cast<int?>().MinBy(i => tuning.Strings[i!.Value].Midi + shape.Frets[i.Value]);
    }

    private int? Shapeless(Leaf leaf, ChordUse? chord, string where)
    {
        if (said.Add((chord?.Name ?? where, -1)))
            bag.Add(DiagnosticCode.NoShape, leaf.Value.Span,
                $"{Sign} takes its fret from the shape of the chord, and "
                    + $"{(chord is null ? $"no chord stands at {where}" : $"{chord.Name} at {where} has none")}.",
                chord is null || chord.Chord.IsNone ? "Write there what is picked, in a block that starts with 'pick from' and the bar."
                    : $"Add a line 'shape {chord.Name} …' before the first section.");
        return null;
    }
}
