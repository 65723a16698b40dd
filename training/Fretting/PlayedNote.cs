namespace Harkbook.Training.Fretting;

/// <summary>A note of a made-up piece: string 0 is the low side, frets count from the capo.</summary>
internal sealed record PlayedNote(int Midi, double Onset, double End, int StringIndex, int Fret, double Strength);
