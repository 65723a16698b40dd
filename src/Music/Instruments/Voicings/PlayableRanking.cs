using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Voicings;

/// <summary>
/// Takes the cheapest combinations that a hand can finger. Fingers only as many as it needs to: a fingering's effort is never
/// negative, so what costs more without one than the worst kept costs with one can be left.
/// </summary>
internal sealed class PlayableRanking(Fretboard board, Hand hand, int results, double effortWeight)
{
    /// <summary>Sums taken in another order differ further down; equals must stay equals.</summary>
    private const int DigitsThatCount = 9;

    private readonly FingerSearch search = new(hand, board.Capo);
    private readonly PriorityQueue<Entry, double> kept = new();

    public readonly record struct Entry(int[] Frets, Shape Shape, ShapeFingering Fingering, double Total);

    /// <summary>The best, cheapest first; equals in the order of their text.</summary>
    public IEnumerable<Entry> Take(List<(double Cost, PackedFrets Frets)> found)
    {
        var waiting = new PriorityQueue<PackedFrets, (double Cost, ulong Bits)>(found.Select(f => (f.Frets, (f.Cost, f.Frets.Bits))));
        while (waiting.TryDequeue(out var packed, out var priority))
        {
            var cost = priority.Cost;
            if (kept.Count == results && kept.TryPeek(out _, out var worst) && cost >= -worst)
                break;
            Keep(packed.Unpacked(board.Tuning.Count), cost);
        }
        return kept.UnorderedItems.Select(item => item.Element).OrderBy(e => e.Total).ThenBy(e => e.Shape.ToString(), StringComparer.Ordinal);
    }

    private void Keep(int[] frets, double cost)
    {
        int?[] shape = [.. frets.Select(f => f < 0 ? (int?)null : f)];
        var pressed = PressedString.Of(shape, board.Capo);
        if (FingeringSolver.BehindCapo(pressed, shape, board.Capo) is not null || search.Find(shape, pressed) is not { } fingering)
            return;
        var total = Math.Round(cost + effortWeight * fingering.Effort.Total, DigitsThatCount);
        kept.Enqueue(new(frets, Shape.Of([.. shape]).WithFingers(fingering.Fingers), fingering, total), -total);
        if (kept.Count > results)
            kept.Dequeue();
    }
}
