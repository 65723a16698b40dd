namespace Harkbook.Listening.Evaluation;

/// <summary>A melody's pitch at one moment, in cents above any fixed pitch, as it truly is and as estimated; null where none sounds.</summary>
public readonly record struct MelodyFrame(double? Truth, double? Estimate);

/// <summary>
/// Melody measures of J. Salamon, E. Gómez, D. Ellis and G. Richard, "Melody extraction from polyphonic music signals",
/// IEEE Signal Processing Magazine 31(2), 2014, with the conventions of mir_eval: a pitch is right within 50 cents.
/// Estimates here give no pitch where they say that nothing sounds, so such frames count as wrong pitch. Each 0–1.
/// </summary>
/// <param name="RawPitch">Of the frames that truly sound, the share with the right pitch.</param>
/// <param name="RawChroma">The same, octaves apart counting as right.</param>
/// <param name="VoicingRecall">Of the frames that truly sound, the share said to.</param>
/// <param name="VoicingFalseAlarm">Of the frames that are truly silent, the share said to sound.</param>
/// <param name="Overall">Of all frames, the share with the right pitch or rightly silent.</param>
public sealed record MelodyScores(double RawPitch, double RawChroma, double VoicingRecall, double VoicingFalseAlarm, double Overall)
{
    private const double Tolerance = 50;

    public static MelodyScores Of(IReadOnlyCollection<MelodyFrame> frames)
    {
        int sounding = 0, right = 0, chroma = 0, said = 0, silent = 0, falsely = 0;
        foreach (var (truth, estimate) in frames)
        {
            if (truth is null)
            {
                silent++;
                falsely += estimate is null ? 0 : 1;
                continue;
            }
            sounding++;
            if (estimate is not { } cents)
                continue;
            said++;
            var off = Math.Abs(cents - truth.Value);
            right += off < Tolerance ? 1 : 0;
            chroma += Math.Abs(off - 1200 * Math.Floor(off / 1200 + 0.5)) < Tolerance ? 1 : 0;
        }
        return new(Share(right, sounding), Share(chroma, sounding), Share(said, sounding), Share(falsely, silent),
            Share(right + silent - falsely, frames.Count));
    }

    private static double Share(int part, int whole) => whole == 0 ? 0 : (double)part / whole;
}
