using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// What speaks at each beat for its place in the bar, beside what the beat network says: how much starts in four regions of the spectrum on the beat
/// and half a beat later, how much sounds there, how much harmony and bass change, and how like the beat is to those two, three, four,
/// six and eight beats away (bars repeat: S. Dixon, F. Gouyon and G. Widmer, "Towards characterisation of music via rhythmic patterns", ISMIR 2004;
/// harmony changes on strong beats: H. Papadopoulos and G. Peeters, "Joint estimation of chords and downbeats from an audio signal", IEEE
/// Trans. Audio, Speech and Language Processing 19, 2011).
/// </summary>
internal static class BarClues
{
    /// <summary>How many clues a beat has.</summary>
    public const int Count = Accents + 2 * LagCount;

    private const int Regions = BeatSound.Regions;
    private const int Accents = 3 * Regions + 8;
    private const int LagCount = 5;

    /// <summary>Accents count by how they stand out among so many beats on either side.</summary>
    private const int Local = 8;

    private static readonly int[] Lags = [2, 3, 4, 6, 8];

    /// <param name="frames">Where the beats fall, rising; two at least.</param>
    /// <returns>Shape (beats, <see cref="Count"/>).</returns>
    public static float[][] Of(IPulseBands bands, PulseEvidence evidence, IReadOnlyList<int> frames, CancellationToken cancellation)
    {
        var sound = new BeatSound(bands, frames, cancellation);
        var clues = frames.Select(_ => new float[Count]).ToArray();
        for (var k = 0; k < clues.Length; k++)
        {
            var row = clues[k];
            for (var r = 0; r < Regions; r++)
            {
                row[r] = sound.Start(k, r, 0);
                row[Regions + r] = sound.Start(k, r, BeatSound.Parts / 2);
                row[2 * Regions + r] = sound.Level(k, r);
            }
            var place = 3 * Regions;
            row[place++] = sound.Change(k, 1, bass: false);
            row[place++] = sound.Change(k, 2, bass: false);
            row[place++] = sound.Change(k, 4, bass: false);
            row[place++] = sound.Change(k, 1, bass: true);
            row[place++] = Odds(PulseEvidence.Top(evidence.Beat, frames[k]));
            row[place++] = Odds(PulseEvidence.Top(evidence.Change, frames[k]));
            var share = Math.Clamp(PulseEvidence.Top(evidence.Downbeat, frames[k]) / (PulseEvidence.Top(evidence.Beat, frames[k]) + 0.02f), 0.03f, 0.97f);
            row[place++] = MathF.Log(share);
            row[place++] = MathF.Log(1 - share);
            for (var l = 0; l < LagCount; l++)
            {
                row[place + l] = sound.Likeness(k, Lags[l], rhythm: true);
                row[place + LagCount + l] = sound.Likeness(k, Lags[l], rhythm: false);
            }
        }
        Stand(clues);
        return clues;
    }

    /// <summary>Accents about their own mean among the neighbours; likenesses about the mean of the beat's own lags.</summary>
    private static void Stand(float[][] clues)
    {
        for (var c = 0; c < Accents - 2; c++)
        {
            var values = clues.Select(r => r[c]).ToArray();
            for (var k = 0; k < clues.Length; k++)
                clues[k][c] -= values[Math.Max(0, k - Local)..Math.Min(values.Length, k + Local + 1)].Average();
        }
        foreach (var row in clues)
        {
            foreach (var first in new[] { Accents, Accents + LagCount })
            {
                var mean = row[first..(first + LagCount)].Average();
                for (var l = 0; l < LagCount; l++)
                    row[first + l] -= mean;
            }
        }
    }

    private static float Odds(float p) => (float)LogOdds.Of(p, least: 0.002);
}
