using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Writing;

/// <summary>Something that starts in a bar: a value, or "_" where what sounded ends.</summary>
internal sealed record CellEvent(Beats Start, string Text);

/// <summary>Finds the plainest cells that put every start of a bar where it belongs.</summary>
internal static class BarGrid
{
    /// <summary>The bar's cells, left to right.</summary>
    /// <param name="wanted">So many cells where they hold every start in a few pieces; 0 where the plainest are wanted.</param>
    public static ImmutableArray<string> Cells(Meter meter, IReadOnlyList<CellEvent> events, bool runTogether = false, int wanted = 0)
    {
        if (events.Count == 0)
            return ["."];
        var cells = wanted is > 0 and <= BarLineReader.MostCells && Pieces(meter, events, wanted).All(p => p <= 4) ? wanted : Choose(meter, events);
        return [.. Enumerable.Range(0, cells).Select(i => Cell(meter, events, cells, i, runTogether))];
    }

    /// <summary>Whether some even split of the bar has all these starts.</summary>
    public static bool CanHold(Meter meter, IReadOnlyList<CellEvent> events) => Fitting(meter, events).Any();

    /// <summary>Beats where commas suffice, in a compound meter its divisions; else the fewest cells and pieces.</summary>
    private static int Choose(Meter meter, IReadOnlyList<CellEvent> events)
    {
        var beats = meter.BeatsPerBar;
        var onBeats = Pieces(meter, events, beats);
        if (onBeats.All(p => p == 1) || (!meter.IsCompound && onBeats.All(p => p <= 4)))
            return beats;
        var divided = beats * meter.DivisionsPerBeat;
        if (meter.IsCompound && divided <= BarLineReader.MostCells && Pieces(meter, events, divided).All(p => p <= 4))
            return divided;
        var fitting = Fitting(meter, events)
            .Select(c => (c.Cells, Cost: c.Pieces.Sum()))
            .OrderBy(c => c.Cost).ThenByDescending(c => c.Cells)
            .ToList();
        return fitting.Count > 0
            ? fitting[0].Cells
            : throw new ArgumentException($"No bar of {BarLineReader.MostCells} cells of {BarLineReader.MostPieces} pieces has the starts "
                + $"{string.Join(", ", events.Select(e => e.Start))}; move them to a plainer fraction of the beat.", nameof(events));
    }

    private static IEnumerable<(int Cells, int[] Pieces)> Fitting(Meter meter, IReadOnlyList<CellEvent> events) =>
        Enumerable.Range(1, BarLineReader.MostCells)
            .Select(n => (Cells: n, Pieces: Pieces(meter, events, n)))
            .Where(c => c.Pieces.All(p => p <= BarLineReader.MostPieces));

    /// <summary>How many pieces each cell needs.</summary>
    private static int[] Pieces(Meter meter, IReadOnlyList<CellEvent> events, int cells)
    {
        var pieces = Enumerable.Repeat(1, cells).ToArray();
        foreach (var entry in events)
        {
            var place = Place(meter, entry, cells);
            var cell = place.Numerator / place.Denominator;
            pieces[cell] = (int)Math.Min(int.MaxValue / 128, LeastCommonMultiple(pieces[cell], place.Denominator));
        }
        return pieces;
    }

    private static string Cell(Meter meter, IReadOnlyList<CellEvent> events, int cells, int index, bool runTogether)
    {
        var count = Pieces(meter, events, cells)[index];
        var pieces = Enumerable.Repeat(".", count).ToArray();
        foreach (var entry in events)
        {
            var place = Place(meter, entry, cells) - Beats.Whole(index);
            if (place >= Beats.Zero && place < Beats.Whole(1))
                pieces[place.Numerator * count / place.Denominator] = entry.Text;
        }
        return string.Join(runTogether && pieces.All(p => p.Length == 1) ? "" : ",", pieces);
    }

    /// <summary>Where in the bar, counted in cells.</summary>
    private static Beats Place(Meter meter, CellEvent entry, int cells) => entry.Start * cells / meter.BeatsPerBar;

    private static long LeastCommonMultiple(long a, long b)
    {
        var (x, y) = (a, b);
        while (y != 0)
            (x, y) = (y, x % y);
        return a / x * b;
    }
}
