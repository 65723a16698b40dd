using Harkbook.Listening.Estimators;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>How far the words for a key count, in a minute of music, beside its chords.</summary>
/// <param name="Network">The network's log chance of the key, its mean over the time.</param>
/// <param name="Profile">How well the notes correlate with published profiles.</param>
/// <param name="FirstBass">That the first bass is the keynote.</param>
/// <param name="First">That the first chord is home.</param>
/// <param name="Last">That the last is.</param>
/// <param name="Change">What a change of key costs, in the chords' log scores.</param>
/// <param name="Temperature">
/// How many of the chords' log scores of a minute are worth one: spans don't err independently, so they say less together than each by itself.
/// </param>
/// <param name="Sureness">From the posterior of the chosen key to how often such are right.</param>
internal sealed record KeyWeights(
    double Network, double Profile, double FirstBass, double First, double Last, double Change, double Temperature, Calibration Sureness);
