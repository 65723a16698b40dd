namespace Harkbook.Listening.Estimators.Chords;

/// <summary>
/// How well each chord state explains what sounds in a span (natural log likelihood): every pitch class sounds or doesn't,
/// with one chance for notes of the chord and another for others, and the lowest note is most often the chord's bass.
/// Treble and bass are weighed apart as in M. Mauch and S. Dixon, "Approximate note transcription for the improved
/// identification of difficult chords", ISMIR 2010.
/// </summary>
internal static class ChordFit
{
    private const double Foreign = 0.1;
    private const double InSilence = 0.06;
    private const double BassIsBass = 0.75;
    private const double BassIsOtherTone = 0.06;
    private const double BassIsForeign = 0.01;

    /// <summary>How likely a chord's note is heard, by semitones above the root: players leave the third out more than the rest.</summary>
    private static readonly double[] HeardByInterval = [0.93, 0.5, 0.7, 0.55, 0.55, 0.7, 0.7, 0.8, 0.7, 0.7, 0.7, 0.7];

    public static double[] LogLikelihoods(PitchClassContent content)
    {
        var states = ChordVocabulary.States;
        var fits = new double[states.Length];
        for (var s = 0; s < fits.Length; s++)
            fits[s] = states[s].Quality is null ? Silence(content) : Treble(content, states[s]) + Bass(content, states[s]);
        return fits;
    }

    private static double Treble(PitchClassContent content, ChordState state)
    {
        var sum = 0.0;
        for (var pc = 0; pc < 12; pc++)
        {
            var expected = state.Tones[pc] ? HeardByInterval[(pc - state.Root + 12) % 12] : Foreign;
            sum += Mixed(content.Sounding[pc], expected);
        }
        return sum;
    }

    public static double Bass(PitchClassContent content, ChordState state)
    {
        var sum = 0.0;
        for (var pc = 0; pc < 12; pc++)
        {
            var chance = pc == state.BassClass ? BassIsBass : state.Tones[pc] ? BassIsOtherTone : BassIsForeign;
            sum += content.Bass[pc] * Math.Log(chance * 12);
        }
        return sum;
    }

    private static double Silence(PitchClassContent content) =>
        content.Sounding.Sum(s => Mixed(s, InSilence)) + (1 - content.Silence) * Math.Log(BassIsForeign * 12);

    private static double Mixed(double sounding, double expected) =>
        sounding * Math.Log(expected) + (1 - sounding) * Math.Log(1 - expected);
}
