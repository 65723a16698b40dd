using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Lays the heard holes of a harmonica on a grid of the beat: quarters of it, in a compound meter thirds. Holes of one breath start
/// together; a breath ends where the next begins, and at its section's end.
/// </summary>
internal sealed class HarpPlacing
{
    private readonly RhythmGrid grid;
    private readonly List<Breathed> breaths = [];

    /// <summary>Holes from one place to another, in steps of the grid from the first bar's start.</summary>
    private sealed record Breathed(int Start, int End, ImmutableArray<HarpNote> Holes, double Confidence);

    /// <param name="sectionEnds">In beats from the first bar's start, rising.</param>
    public HarpPlacing(HeardLine? harmonica, BeatAxis line, bool isCompound, IReadOnlyCollection<int> sectionEnds)
    {
        grid = new(line, isCompound, sectionEnds);
        if (harmonica is null || line.Bars.IsEmpty)
            return;
        var placed = harmonica.Notes.Where(n => n.Holes is not null).GroupBy(n => grid.Step(n.Onset)).OrderBy(g => g.Key)
            .Select(g => OneBreath(g.Key, [.. g])).ToList();
        for (var i = 0; i < placed.Count; i++)
        {
            int? next = i + 1 < placed.Count ? placed[i + 1].Start : null;
            breaths.Add(placed[i] with { End = grid.EndOf(placed[i].Start, placed[i].End, next) });
        }
    }

    public ImmutableArray<Claim<HarpNote>> InBar(ProposedBar bar) =>
        [.. breaths.Where(b => grid.IsIn(bar, b.Start)).SelectMany(b => b.Holes.Select(hole => grid.Claim(bar, b.Start, b.End, hole, b.Confidence)))];

    /// <summary>Of holes that start together, those on the breath of the surest; each once, from the lowest up.</summary>
    private Breathed OneBreath(int start, List<HeardLineNote> notes)
    {
        var surest = notes.MaxBy(n => n.Confidence * (n.End - n.Onset).Value)!;
        var together = notes.Where(n => n.Holes!.Best.Breath == surest.Holes!.Best.Breath && (n == surest || n.Holes.Best.Bend == 0)).ToList();
        var holes = together.Select(n => n.Holes!.Best).Distinct().OrderBy(h => h.Hole).ToImmutableArray();
        return new(start, grid.Step(together.Max(n => n.End)), holes, surest.Confidence * surest.Holes!.Confidence);
    }
}
