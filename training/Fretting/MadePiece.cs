using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Fretting;

/// <summary>A chord with the shape that sounded it.</summary>
/// <param name="OnlyMeant">Whether a line over it is all that sounded, so that no shape was there to be heard.</param>
internal sealed record PlayedChord(double Start, double End, Chord Chord, Shape Shape, bool OnlyMeant);

/// <summary>A piece with everything that an estimator should find.</summary>
/// <param name="Style">How it is played, in a word.</param>
internal sealed record MadePiece(Tuning Tuning, Capo Capo, string Name, string Style, Key Key, List<PlayedNote> Notes, List<PlayedChord> Chords, double Length);
