namespace Harkbook.Music.Songs;

/// <summary>Whether the finger slides off at a note's end, to nowhere in particular.</summary>
public enum SlideOff
{
    None,
    Up,
    Down,
}
