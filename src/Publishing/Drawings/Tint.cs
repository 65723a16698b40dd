namespace Harkbook.Publishing.Drawings;

/// <summary>What a mark's colour says. A <see cref="Palette"/> gives each its colour, so one drawing serves paper and screen.</summary>
public enum Tint
{
    /// <summary>The ground.</summary>
    Paper,

    /// <summary>Words and signs that must be read first.</summary>
    Ink,

    /// <summary>Words of second rank: labels, bar numbers.</summary>
    Quiet,

    /// <summary>Strings, frets, rulers.</summary>
    Line,

    /// <summary>Decoration that carries no meaning alone: fills and fine rules.</summary>
    Faint,

    /// <summary>The fretting hand: chord names, stopped strings.</summary>
    Hand,

    /// <summary>The voice.</summary>
    Voice,

    /// <summary>Breath out, into the harmonica.</summary>
    Blow,

    /// <summary>Breath in.</summary>
    Draw,

    /// <summary>Heard by the program, and not yet decided by a person.</summary>
    Heard,

    /// <summary>What sounds at this moment, behind or around it.</summary>
    Now,

    /// <summary>Signs that stand on <see cref="Hand"/>, <see cref="Blow"/> or <see cref="Draw"/>.</summary>
    OnColour,
}
