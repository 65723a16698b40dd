using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>What speaks for a claimed note and against it.</summary>
internal sealed class NoteClaimFeatures(HeardStarts starts, WrittenNotes written)
{
    /// <summary>A note written that near a place takes what starts there for itself, in seconds.</summary>
    private const double Taken = 0.09;

    /// <summary>How far a note may have been moved, in seconds: an eighth at a slow tempo.</summary>
    private const double Farthest = 0.45;

    private const double Before = 0.12, Gap = 0.03, After = 0.2, Swell = 0.1, Latest = 0.16;

    /// <summary>Below it the first partials lie near one another: E3.</summary>
    private const int Low = 52;

    private static readonly int[] Beside = [-1, 1, -2, 2, -12, 12];

    private readonly NoteNeighbours neighbours = new(starts, written);

    public Feature[] Of(NoteClaim claim)
    {
        var own = Own(claim).LogOdds;
        var after = starts.Sounds(claim.Midi, claim.Onset + Gap, claim.Onset + Math.Clamp(claim.End - claim.Onset, 2 * Gap, After));
        return
        [
            new("start", own),
            new("rise", after - starts.Sounds(claim.Midi, claim.Onset - Before, claim.Onset - Gap)),
            new("masked start", Masked(claim) * own),
            new("joined", claim.IsJoined ? 1 : 0),
            new("besides", Pitches(claim).LogOdds),
            new("elsewhere", Times(claim).LogOdds),
            new("late", Late(claim)),
            new("level", starts.Level(claim.Midi, claim.Onset - Gap, claim.Onset + Swell)),
            new("low", Math.Max(0, Low - claim.Midi) / 12.0),
            .. neighbours.Of(claim, own),
        ];
    }

    /// <summary>How surely the note starts, at its pitch or on the way of its bend, and when.</summary>
    public (double LogOdds, double Time) Own(NoteClaim claim) => Enumerable.Range(claim.Midi - claim.BentBy, claim.BentBy + 1)
        .Select(m => starts.Strongest(m, claim.Onset - HeardStarts.Reach, claim.Onset + HeardStarts.Reach)).MaxBy(s => s.LogOdds);

    /// <summary>The likeliest other pitch in its place that nothing else written explains, as an interval.</summary>
    public (double LogOdds, int By) Pitches(NoteClaim claim) => Beside.Select(by => (Free(claim.Midi + by, claim.Onset), by)).MaxBy(r => r.Item1);

    /// <summary>The likeliest other time for it that nothing written explains.</summary>
    public (double LogOdds, double Time) Times(NoteClaim claim)
    {
        var best = (LogOdds: HeardStarts.Never, Time: claim.Onset);
        for (var by = HeardStarts.Reach; by < Farthest; by += starts.Notes.Hop.Value)
        {
            foreach (var time in (ReadOnlySpan<double>)[claim.Onset - by, claim.Onset + by])
            {
                if (starts.At(claim.Midi, time, 0) is var found && found > best.LogOdds && OnlyNear(claim.Midi, time, claim.Onset))
                    best = (found, time);
            }
        }
        return best;
    }

    /// <summary>Whether something written besides a claim starts then at a pitch, or has it for an overtone.</summary>
    public bool IsExplained(int midi, NoteClaim claim) => written.Has(midi, claim.Onset, Taken)
        || Overtones.Semitones.Any(o => midi - o != claim.Midi && written.Has(midi - o, claim.Onset, Taken));

    /// <summary>How surely the note starts a little late, as one that swells does, where nothing else is written that would.</summary>
    private double Late(NoteClaim claim)
    {
        var (found, time) = starts.Strongest(claim.Midi, claim.Onset + HeardStarts.Reach, claim.Onset + Latest);
        return OnlyNear(claim.Midi, time, claim.Onset) ? found : HeardStarts.Never;
    }

    /// <summary>How surely a pitch starts at a time, where nothing written does.</summary>
    private double Free(int midi, double time) => written.Has(midi, time, Taken) ? HeardStarts.Never : starts.At(midi, time);

    /// <summary>Whether no other note of the pitch is written near a time; the claim itself, which stands at another time, is no other.</summary>
    private bool OnlyNear(int midi, double time, double own) => !written.Has(midi, time, Math.Min(Taken, Math.Abs(time - own) - 1e-6));

    /// <summary>How surely a written note starts then of which this would be an overtone (0–1).</summary>
    private double Masked(NoteClaim claim)
    {
        var most = 0.0;
        foreach (var overtone in Overtones.Semitones)
        {
            if (written.Has(claim.Midi - overtone, claim.Onset, Taken))
                most = Math.Max(most, LogOdds.Chance(starts.At(claim.Midi - overtone, claim.Onset)));
        }
        return most;
    }
}
