using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Lays the heard holes of a harmonica on a grid of the beat: quarters of it, in a compound meter thirds. Holes of one breath start
/// together; a breath ends where the next begins, and at its section's end.
/// </summary>
internal sealed class HarpPlacing
{
    private const int Simple = 4;

    private readonly int grid;
    private readonly List<Breathed> breaths = [];

    /// <summary>Holes from one place to another, in steps of the grid from the first bar's start.</summary>
    private sealed record Breathed(int Start, int End, ImmutableArray<HarpNote> Holes, double Confidence);

    /// <param name="sectionEnds">In beats from the first bar's start, rising.</param>
    public HarpPlacing(HeardSecondInstrument heard, BeatLine line, bool isCompound, IReadOnlyCollection<int> sectionEnds)
    {
        grid = isCompound ? 3 : Simple;
        if (heard.Harp is null || line.Bars.IsEmpty)
            return;
        var placed = heard.Notes.Where(n => n.Holes is not null).GroupBy(n => Step(line, n.Onset)).OrderBy(g => g.Key)
            .Select(g => OneBreath(g.Key, [.. g], line)).ToList();
        for (var i = 0; i < placed.Count; i++)
        {
            var end = sectionEnds.Select(e => e * grid).FirstOrDefault(e => e > placed[i].Start, placed[i].End);
            var next = i + 1 < placed.Count ? placed[i + 1].Start : int.MaxValue;
            breaths.Add(placed[i] with { End = Math.Max(placed[i].Start + 1, Math.Min(placed[i].End, Math.Min(next, end))) });
        }
    }

    public ImmutableArray<Claim<HarpNote>> InBar(ProposedBar bar) =>
    [
        .. breaths.Where(b => b.Start >= bar.FirstBeat * grid && b.Start < bar.EndBeat * grid).SelectMany(b => b.Holes.Select(hole => new Claim<HarpNote>(
            Beats.Fraction(b.Start - bar.FirstBeat * grid, grid), Beats.Fraction(b.End - b.Start, grid), hole, Standing.HeardToThePercent(b.Confidence)))),
    ];

    /// <summary>Of holes that start together, those on the breath of the surest; each once, from the lowest up.</summary>
    private Breathed OneBreath(int start, List<HeardLineNote> notes, BeatLine line)
    {
        var surest = notes.MaxBy(n => n.Confidence * (n.End - n.Onset).Value)!;
        var together = notes.Where(n => n.Holes!.Best.Breath == surest.Holes!.Best.Breath && (n == surest || n.Holes.Best.Bend == 0)).ToList();
        var holes = together.Select(n => n.Holes!.Best).Distinct().OrderBy(h => h.Hole).ToImmutableArray();
        return new(start, Step(line, together.Max(n => n.End)), holes, surest.Confidence * surest.Holes!.Confidence);
    }

    private int Step(BeatLine line, Seconds time) => (int)Math.Round(line.PlaceOf(time.Value) * grid);
}
