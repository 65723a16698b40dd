using Harkbook.Listening.Checking.Weighing;

namespace Harkbook.Listening.Checking.Lines;

/// <summary>A note of the tune that is claimed to sound; the pitch counted from the recording's own reference.</summary>
internal readonly record struct TuneClaim(int Midi, double Onset, double End);

/// <summary>What speaks for a claimed note of a voice, whistle or fiddle: its sound and its start, and any other pitch's.</summary>
/// <param name="line">What the cells say of the kind that sings or plays.</param>
/// <param name="heard">The notes that were made out of it.</param>
internal sealed class TuneFeatures(HeardStarts starts, LineStarts line, IReadOnlyList<HeardLineNote> heard)
{
    private const double Reach = 0.1, Gap = 0.05, Longest = 0.4;
    private const int Around = 12;

    public Feature[] Of(TuneClaim claim)
    {
        var rival = Rival(claim);
        return
        [
            new("sounds", Sounds(claim.Midi, claim)),
            new("starts", Starts(claim.Midi, claim)),
            new("heard start", starts.At(claim.Midi, claim.Onset, Reach)),
            new("note", heard.Any(n => n.Midi == claim.Midi && Math.Abs(n.Onset.Value - claim.Onset) <= Reach) ? 1 : 0),
            new("rival sounds", rival.Sounds),
            new("rival starts", rival.Starts),
        ];
    }

    /// <summary>The likeliest other pitch then, an octave off at most.</summary>
    public (int Midi, double Sounds, double Starts) Rival(TuneClaim claim) => Enumerable.Range(claim.Midi - Around, 2 * Around + 1)
        .Where(m => m != claim.Midi).Select(m => (m, Sounds(m, claim), Starts(m, claim))).MaxBy(r => r.Item2 + r.Item3);

    private double Sounds(int midi, TuneClaim claim) =>
        line.Sounds(midi, claim.Onset + Gap, Math.Clamp(claim.End, claim.Onset + 2 * Gap, claim.Onset + Longest));

    private double Starts(int midi, TuneClaim claim) => line.Starts(midi, claim.Onset - Reach, claim.Onset + Reach);
}
