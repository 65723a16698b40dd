using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Listening.Checking.Lines;

/// <summary>A hole of the harmonica that is claimed to sound, with the pitches that sound on the same breath.</summary>
internal readonly record struct HoleClaim(HarpNote Note, double Onset, double End, int[] OnSameBreath);

/// <summary>What speaks for a claimed hole and breath: its reed, and what else the same harmonica has.</summary>
internal sealed class HoleFeatures(HeardStarts starts, LineStarts reed, Harmonica harp)
{
    private const double Reach = 0.08, Gap = 0.03, Longest = 0.35;

    public Feature[] Of(HoleClaim claim)
    {
        var midi = harp.PitchOf(claim.Note).Midi;
        var rival = Rival(claim);
        var (sounds, below) = (Sounds(midi, claim), Sounds(midi - 12, claim));
        return
        [
            new("sounds", sounds),
            new("starts", Starts(midi, claim)),
            new("heard start", starts.At(midi, claim.Onset, Reach)),
            new("heard sound", starts.Sounds(midi, claim.Onset + Gap, End(claim))),
            new("rival sounds", rival.Sounds),
            new("rival starts", rival.Starts),
            new("octave below", Math.Max(0, below - sounds)),
            new("together", claim.OnSameBreath.Length > 1 ? 1 : 0),
            new("bent", claim.Note.Technique == HarpTechnique.Plain ? 0 : 1),
        ];
    }

    /// <summary>The likeliest other hole of the harmonica then.</summary>
    public (HarpNote Note, double Sounds, double Starts) Rival(HoleClaim claim) => harp.AllNotes
        .Where(n => !claim.OnSameBreath.Contains(harp.PitchOf(n).Midi))
        .Select(n => (n, Sounds(harp.PitchOf(n).Midi, claim), Starts(harp.PitchOf(n).Midi, claim)))
        .MaxBy(r => r.Item2 + r.Item3 - 0.1 * (int)r.n.Technique);

    private double Sounds(int midi, HoleClaim claim) => reed.Sounds(midi, claim.Onset + Gap, End(claim));

    private double Starts(int midi, HoleClaim claim) => reed.Starts(midi, claim.Onset - Reach, claim.Onset + Reach);

    private static double End(HoleClaim claim) => Math.Clamp(claim.End, claim.Onset + 2 * Gap, claim.Onset + Longest);
}
