using System.Globalization;
using Harkbook.Music.Songs.Reading;

namespace Harkbook.Music.Songs.Writing;

/// <summary>A note on a string as a song file writes it.</summary>
public static class PickedText
{
    /// <summary>Reads "h7", "3h5b7~": the note, or in words what is wrong with it. "*" needs a shape, and is none here.</summary>
    public static (PickedNote? Note, string? Problem) Read(string text, int stringIndex) =>
        PickedReader.Read(text, stringIndex, () => null) is { Note: null, Problem: null } ? (null, $"{ShapeFrets.Sign} needs the bar's shape; say the fret.")
            : PickedReader.Read(text, stringIndex, () => null);

    public static string Of(PickedNote note)
    {
        var attacks = note.Graces.All().Select(g => g.Attack).Append(note.Attack).ToArray();
        var graces = note.Graces.All().Select((g, i) => Number(g.Fret) + Sign(attacks[i + 1], "g"));
        return Sign(attacks[0], "") + string.Concat(graces) + Place(note) + BendOf(note) + (note.HasVibrato ? "~" : "")
            + note.SlideOff switch { SlideOff.Up => "/", SlideOff.Down => "\\", _ => "" }
            + (note.LetsRing ? "ring" : "")
            + (note.Finger == PickingFinger.None ? "" : ":" + Letter(note.Finger));
    }

    /// <summary>p, i, m, a or c.</summary>
    private static char Letter(PickingFinger finger) => "pimac"[(int)finger - 1];

    private static string Place(PickedNote note) =>
        note.IsMuted ? "x"
        : note.TouchedAt is { } touch ? $"{(note.Fret == 0 ? "" : Number(note.Fret))}<{Number(touch)}>"
        : note.IsGhost ? $"({Number(note.Fret)})"
        : Number(note.Fret);

    private static string BendOf(PickedNote note)
    {
        if (note.Bend.IsNone)
            return "";
        var halves = (int)Math.Round(note.Bend.By.Value / 50);
        var released = note.Bend.IsReleased ? "r" + Number(note.Fret) : "";
        return $"{(note.Bend.IsBefore ? "p" : "")}b{Number(note.Fret + halves / 2)}{(halves % 2 == 1 ? "+1/2" : "")}{released}";
    }

    private static string Sign(Attack attack, string picked) => attack switch
    {
        Attack.HammeredOn => "h",
        Attack.PulledOff => "p",
        Attack.Slid => "s",
        Attack.Tapped => "t",
        Attack.SlidFromBelow => "/",
        Attack.SlidFromAbove => "\\",
        _ => picked,
    };

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
