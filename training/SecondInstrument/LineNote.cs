using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Training.SecondInstrument;

/// <summary>A note of a made-up line over the guitar.</summary>
/// <param name="Scoop">Where the pitch starts, in cents from where it settles within a tenth of a second.</param>
/// <param name="Voice">0 for the line itself, 1 and 2 for further holes on the same breath.</param>
/// <param name="Hole">How a harmonica plays it; null on other instruments.</param>
internal sealed record LineNote(int Midi, double Onset, double End, int Velocity, double Scoop = 0, int Voice = 0, HarpNote? Hole = null);

/// <summary>A note of the guitar's. Strings 0 to 5.</summary>
internal sealed record GuitarNote(int String, int Midi, double Onset, double End, int Velocity);
