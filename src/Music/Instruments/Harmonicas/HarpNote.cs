using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace Harkbook.Music.Instruments.Harmonicas;

/// <summary>Which way the breath goes through a hole.</summary>
public enum Breath
{
    Blow,
    Draw,
}

/// <summary>What a note asks of the player, the easiest first.</summary>
public enum HarpTechnique
{
    Plain,

    /// <summary>The slide of a chromatic harmonica pressed in: a semitone up (common practice).</summary>
    Slide,
    Bent,
    OverBent,
}

/// <summary>
/// One note on a harmonica: hole (1 upward), breath, and bending in semitones (0 plain; negative for a bend down;
/// positive, always +1 above the hole's higher reed, for an over-bend); with the slide in on a chromatic one.
/// Written "+4" (blow 4), "-4" (draw 4), "-3''" (draw 3 bent two semitones), "+6o" (blow 6 over-bent), "+5&lt;" (blow 5, slide in).
/// </summary>
public readonly record struct HarpNote(int Hole, Breath Breath, int Bend = 0, bool Slide = false)
{
    private const int MostHoles = 16;
    private const int DeepestBend = 4;

    public HarpTechnique Technique => Bend switch
    {
        0 => Slide ? HarpTechnique.Slide : HarpTechnique.Plain,
        < 0 => HarpTechnique.Bent,
        _ => HarpTechnique.OverBent,
    };

    /// <summary>Reads "+4", "-4", "-3'", "+6o", "+5&lt;". Whether a harmonica has the note is for <see cref="Harmonica"/> to say.</summary>
    public static bool TryParse([NotNullWhen(true)] string? text, out HarpNote note)
    {
        note = default;
        if (text is not ['+' or '-', .. var rest])
            return false;
        var digits = rest.TakeWhile(char.IsAsciiDigit).Count();
        if (!int.TryParse(rest.AsSpan(0, digits), NumberStyles.None, CultureInfo.InvariantCulture, out var hole)
            || hole is < 1 or > MostHoles
            || ReadMarks(rest[digits..]) is not { } marks)
            return false;
        note = new(hole, text[0] == '+' ? Breath.Blow : Breath.Draw, marks.Bend, marks.Slide);
        return true;
    }

    public static HarpNote Parse(string text) =>
        TryParse(text, out var note)
            ? note
            : throw new FormatException($"'{text}' is not a harmonica note; write + (blow) or - (draw) and the hole, then ' for each semitone bent or o for an "
                + "over-bend or < for the slide, as in +4, -3'', +6o, +5<.");

    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{(Breath == Breath.Blow ? '+' : '-')}{Hole}{Marks}");

    private string Marks => Slide ? "<" : Bend > 0 ? "o" : new string('\'', -Bend);

    private static (int Bend, bool Slide)? ReadMarks(string marks) =>
        marks == "<" ? (0, true)
        : marks == "o" ? (1, false)
        : marks.Length <= DeepestBend && marks.All(c => c == '\'') ? (-marks.Length, false)
        : null;
}
