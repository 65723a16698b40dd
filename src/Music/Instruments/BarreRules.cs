using System.Collections.Immutable;

namespace Harkbook.Music.Instruments;

/// <summary>
/// When one finger may press several strings: on one fret, with no open and no lower-fretted string under it; higher frets
/// on the strings under it are fine (common practice). How many strings the other fingers manage is our judgement.
/// </summary>
internal static class BarreRules
{
    private static readonly int[] MostStrings = [0, 12, 3, 4, 3];

    /// <summary>Why a finger can't hold the pressed strings from one place in the list to another; null when it can.</summary>
    public static string? Fault(int?[] frets, PressedString[] pressed, int finger, int first, int last)
    {
        if (first == last)
            return null;
        var (low, high, fret) = (pressed[first].StringIndex, pressed[last].StringIndex, pressed[first].FromNut);
        if (high - low + 1 > MostStrings[finger])
            return $"finger {finger} can't lie across {high - low + 1} strings";
        for (var i = low; i <= high; i++)
        {
            if (frets[i] == 0)
                return $"an open string lies under finger {finger}'s barre";
            var under = FretFromNut(pressed, i);
            if (under < fret)
                return $"a lower fret lies under finger {finger}'s barre";
        }
        return null;
    }

    /// <summary>Harder over more strings, near the nut, over a string to be muted, and beside an open string on the high side.</summary>
    public static double Effort(int?[] frets, int finger, int fromNut, int low, int high)
    {
        var strings = high - low + 1;
        var press = finger == 1 ? 0.3 + 0.1 * strings : 0.35 + 0.25 * strings;
        var muted = frets.AsSpan(low, strings).Count((int?)null);
        var openBeside = high + 1 < frets.Length && frets[high + 1] == 0 ? 0.6 : 0;
        return press * (fromNut == 1 ? 1.35 : 1) + 0.8 * muted + openBeside;
    }

    /// <summary>The barres in a fingering: a finger that presses two or more strings.</summary>
    public static ImmutableArray<Barre> Barres(int?[] frets, int[] fingers)
    {
        var barres = ImmutableArray.CreateBuilder<Barre>();
        for (var finger = 1; finger <= 4; finger++)
        {
            var (low, high) = (Array.IndexOf(fingers, finger), Array.LastIndexOf(fingers, finger));
            if (high > low)
                barres.Add(new(finger, frets[low] ?? 0, low, high));
        }
        return barres.ToImmutable();
    }

    private static int? FretFromNut(PressedString[] pressed, int stringIndex)
    {
        foreach (var p in pressed)
        {
            if (p.StringIndex == stringIndex)
                return p.FromNut;
        }
        return null;
    }
}
