using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Lays what a second line plays or sings on a grid of the beat: quarters of it, in a compound meter thirds. Places are steps of the grid
/// from the first bar's start.
/// </summary>
/// <param name="sectionEnds">In beats from the first bar's start, rising.</param>
internal sealed class RhythmGrid(BeatAxis line, bool isCompound, IReadOnlyCollection<int> sectionEnds)
{
    private readonly int perBeat = isCompound ? 3 : 4;

    /// <summary>Of a beat from the first bar's start.</summary>
    public int StepOf(int beat) => beat * perBeat;

    public int Step(Seconds time) => (int)Math.Round(line.PlaceOf(time.Value) * perBeat);

    /// <summary>Where something ends: by the next one's start and its section's end, and a step after its start at the least.</summary>
    public int EndOf(int start, int end, int? next) =>
        Math.Max(start + 1, Math.Min(Math.Min(end, next ?? end), sectionEnds.Select(e => e * perBeat).FirstOrDefault(e => e > start, end)));

    public bool IsIn(ProposedBar bar, int start) => start >= bar.FirstBeat * perBeat && start < bar.EndBeat * perBeat;

    /// <summary>A heard claim in the bar where it starts.</summary>
    public Claim<T> Claim<T>(ProposedBar bar, int start, int end, T value, double confidence) =>
        new(Beats.Fraction(start - bar.FirstBeat * perBeat, perBeat), Beats.Fraction(end - start, perBeat), value, Standing.HeardToThePercent(confidence));
}
