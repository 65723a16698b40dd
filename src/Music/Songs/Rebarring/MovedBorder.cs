namespace Harkbook.Music.Songs.Rebarring;

/// <summary>A section (0 is the song's first) that is to begin with another bar of the song (from 1).</summary>
internal readonly record struct MovedBorder(int Section, int FirstBar);
