using Harkbook.Music.Theory;

namespace Harkbook.Listening.Evaluation;

/// <summary>
/// The weighted key score of the MIREX key-finding task: the same key 1, a fifth above 0.5, the relative key 0.3,
/// the parallel key 0.2, others 0. Modes count as major or minor by their third.
/// </summary>
public static class KeyScore
{
    public static double Weighted(Key reference, Key estimated)
    {
        var semitones = (estimated.Tonic.PitchClass - reference.Tonic.PitchClass + 12) % 12;
        var (minor, other) = (reference.Mode.IsMinor, estimated.Mode.IsMinor);
        return (semitones, minor == other) switch
        {
            (0, true) => 1,
            (7, true) => 0.5,
            (0, false) => 0.2,
            (9, false) when !minor => 0.3,
            (3, false) when minor => 0.3,
            _ => 0,
        };
    }
}
