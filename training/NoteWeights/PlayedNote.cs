namespace Harkbook.Training.NoteWeights;

/// <summary>A note of a made-up piece. Strings 0–5; 6 is another instrument. Velocity 1–127.</summary>
internal sealed record PlayedNote(int Midi, double Onset, double End, int StringIndex, int Velocity);
