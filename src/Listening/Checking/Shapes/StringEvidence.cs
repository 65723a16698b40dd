using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Checking.Shapes;

/// <summary>
/// How surely each pitch near a claimed one starts and sounds when a string is struck, pooled over all its moments; an open string may also be
/// silent. What the other strings of the hand explain, by their pitch or its overtones, is known.
/// </summary>
internal sealed class StringEvidence
{
    /// <summary>How far the string's pitch may be off, in semitones.</summary>
    public const int Farthest = 2;

    private const double Reach = 0.06, Gap = 0.03, After = 0.25;

    private readonly double[] start = new double[2 * Farthest + 1], sound = new double[2 * Farthest + 1], explained = new double[2 * Farthest + 1];

    /// <param name="moments">Times with the string's claimed pitch then, and the pitches of the other strings.</param>
    public StringEvidence(HeardStarts starts, IReadOnlyCollection<(double Time, int Midi, int[] Others)> moments)
    {
        Moments = moments.Count;
        foreach (var (time, midi, others) in moments)
        {
            for (var by = -Farthest; by <= Farthest; by++)
            {
                start[by + Farthest] += starts.At(midi + by, time, Reach) / Moments;
                sound[by + Farthest] += starts.Sounds(midi + by, time + Gap, time + After) / Moments;
                explained[by + Farthest] += Explained(midi + by, others) / Moments;
            }
        }
    }

    public int Moments { get; }

    /// <summary>The semitones by which the string is likeliest off, if it is, and how far that lies ahead of the claim.</summary>
    public (int By, double Ahead) Rival(Func<int, bool> isPossible)
    {
        var best = (By: 0, Ahead: double.NegativeInfinity);
        for (var by = -Farthest; by <= Farthest; by++)
        {
            var ahead = Weight(by) - Weight(0);
            if (by != 0 && isPossible(by) && ahead > best.Ahead)
                best = (by, ahead);
        }
        return best;
    }

    /// <summary>Whether the string so many semitones off is likelier to start than not, and than the claim.</summary>
    public bool RivalStarts(int by) => start[Farthest + by] > Math.Max(-1, start[Farthest]);

    public Feature[] Features(int rival) =>
    [
        new("start", start[Farthest]),
        new("sound", sound[Farthest]),
        new("heard", LogOdds.Chance(start[Farthest])),
        new("rival heard", LogOdds.Chance(start[Farthest + rival])),
        new("explained", explained[Farthest]),
        new("explained start", explained[Farthest] * start[Farthest]),
        new("rival start", start[Farthest + rival]),
        new("rival sound", sound[Farthest + rival]),
        new("rival explained", explained[Farthest + rival]),
        new("rival explained start", explained[Farthest + rival] * start[Farthest + rival]),
        new("moments", Math.Log(Moments)),
        new("start moments", Math.Log(Moments) * start[Farthest]),
        new("rival moments", Math.Log(Moments) * start[Farthest + rival]),
    ];

    private double Weight(int by) => start[by + Farthest] + 0.5 * sound[by + Farthest] - 4 * explained[by + Farthest];

    /// <summary>1 where another string sounds the pitch itself, a half where it is an overtone of one.</summary>
    private static double Explained(int midi, int[] others)
    {
        var most = 0.0;
        foreach (var other in others)
            most = Math.Max(most, midi == other ? 1 : Overtones.Has(midi - other) ? 0.5 : 0);
        return most;
    }
}
