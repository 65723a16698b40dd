using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>
/// Weighted note-to-beat distance: F. Gómez, A. Melvin, D. Rappaport and G. T. Toussaint, "Mathematical measures of syncopation",
/// BRIDGES 2005. A note off the beat weighs one over its distance to the nearest beat, twice that when it lasts past the next
/// beat and not past the one after; a note on the beat weighs nothing.
/// </summary>
public static class BeatDistance
{
    /// <summary>The sum of the notes' weights. Each note lasts until the next starts.</summary>
    /// <param name="onsets">Felt beats from any downbeat, rising.</param>
    /// <param name="end">Where the last note ends.</param>
    public static double Total(IReadOnlyList<Beats> onsets, Beats end)
    {
        var total = 0.0;
        for (var i = 0; i < onsets.Count; i++)
            total += Weight(onsets[i], i + 1 < onsets.Count ? onsets[i + 1] : end);
        return total;
    }

    /// <summary>The same for each note; 0 where there is none.</summary>
    public static double Mean(IReadOnlyList<Beats> onsets, Beats end) => onsets.Count == 0 ? 0 : Total(onsets, end) / onsets.Count;

    private static double Weight(Beats start, Beats end)
    {
        var before = Beats.Whole((int)Math.Floor(start.Value));
        var into = (start - before).Value;
        if (into == 0)
            return 0;
        var next = before + Beats.Whole(1);
        var lastsOver = end > next && end <= next + Beats.Whole(1);
        return (lastsOver ? 2 : 1) / Math.Min(into, 1 - into);
    }
}
