using Harkbook.Listening.Estimators;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>How chords are decoded.</summary>
/// <param name="Evidence">How far one span's evidence counts; neighbouring spans hold the same ringing notes.</param>
/// <param name="Usual">How far it counts what chords are usual, alone and in the key.</param>
/// <param name="Alike">How far a span that was heard just as a claimed one leans to its chord, in log units.</param>
/// <param name="Temperature">What log scores are divided by before they become posteriors, because spans don't err independently.</param>
/// <param name="Sureness">From the posterior of the chosen chord to how often such are right.</param>
internal sealed record ChordWeights(double Evidence, double Usual, double Alike, double Temperature, Calibration Sureness);
