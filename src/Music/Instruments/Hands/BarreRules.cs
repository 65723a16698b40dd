using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;

namespace Harkbook.Music.Instruments.Hands;

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
        var (low, high) = Ends(pressed, first, last);
        var fret = pressed[first].FromNut;
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

    /// <summary>The outer strings among pressed ones from one place in the list to another.</summary>
    public static (int Low, int High) Ends(PressedString[] pressed, int first, int last) =>
        (Math.Min(pressed[first].StringIndex, pressed[last].StringIndex), Math.Max(pressed[first].StringIndex, pressed[last].StringIndex));

    /// <summary>Harder over more strings, near the nut, over a string to be muted, and beside an open string on the high side.</summary>
    public static double Effort(int?[] frets, FingerStop barre)
    {
        var strings = barre.HighString - barre.LowString + 1;
        var press = barre.Finger == 1 ? 0.3 + 0.1 * strings : 0.35 + 0.25 * strings;
        var muted = frets.AsSpan(barre.LowString, strings).Count((int?)null);
        var openBeside = barre.HighString + 1 < frets.Length && frets[barre.HighString + 1] == 0 ? 0.6 : 0;
        return press * (barre.FromNut == 1 ? 1.35 : 1) + 0.8 * muted + openBeside;
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
