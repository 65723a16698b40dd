namespace Harkbook.Music.Instruments.Strings;

/// <summary>A string (0 = the low side) and a fret, counted from the capo where it stops that string and from the nut elsewhere.</summary>
public readonly record struct FretPlace(int StringIndex, int Fret);
