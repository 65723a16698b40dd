using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Hands;

/// <summary>A string that a finger presses; the fret counts from the nut, where the finger stands.</summary>
internal readonly record struct PressedString(int StringIndex, int FromNut)
{
    /// <summary>Pressed strings by fret, then from the low side: the order in which fingers 1 to 4 take them.</summary>
    public static PressedString[] Of(ReadOnlySpan<int?> frets, Capo capo)
    {
        var pressed = new List<PressedString>(frets.Length);
        for (var i = 0; i < frets.Length; i++)
        {
            if (frets[i] is > 0 and var fret)
                pressed.Add(new(i, fret + capo.Raises(i)));
        }
        pressed.Sort((a, b) => a.FromNut != b.FromNut ? a.FromNut.CompareTo(b.FromNut) : a.StringIndex.CompareTo(b.StringIndex));
        return [.. pressed];
    }

    /// <summary>
    /// The other order that a slanting hand takes: two strings apart on the lowest fret from the high side, where the strings on higher frets lie on the
    /// low side of both. Null where the hand doesn't slant so.
    /// </summary>
    public static PressedString[]? Slanted(PressedString[] pressed) =>
        pressed.Length > 2 && pressed[0].FromNut == pressed[1].FromNut && pressed[1].StringIndex - pressed[0].StringIndex > 1
            && pressed.Skip(2).All(p => p.FromNut > pressed[0].FromNut && p.StringIndex < pressed[0].StringIndex)
            ? [pressed[1], pressed[0], .. pressed.Skip(2)]
            : null;
}
