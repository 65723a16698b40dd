namespace Harkbook.Listening.Checking.Weighing;

/// <summary>All notes that are claimed: what one of them explains speaks for no other.</summary>
internal sealed class WrittenNotes
{
    private readonly WrittenNote[] notes;
    private readonly double[][] onsets;
    private readonly double[] all;

    public WrittenNotes(IEnumerable<WrittenNote> written)
    {
        notes = [.. written.Where(n => n.Midi is >= 0 and < 128).OrderBy(n => n.Onset)];
        var known = notes.ToLookup(n => n.Midi, n => n.Onset);
        onsets = [.. Enumerable.Range(0, 128).Select(m => known[m].ToArray())];
        all = Array.ConvertAll(notes, n => n.Onset);
    }

    /// <summary>In the order of their starts.</summary>
    public ReadOnlySpan<WrittenNote> Notes => notes;

    /// <summary>The places among <see cref="Notes"/> of those that start between two times.</summary>
    public Range Between(double from, double to) => Place(all, from)..Place(all, to);

    /// <summary>Whether a pitch is written to start within so many seconds of a time.</summary>
    public bool Has(int midi, double time, double within) => midi is >= 0 and < 128 && Distance(onsets[midi], time) <= within;

    /// <summary>How far the nearest written start of a pitch lies from a time; infinite where there is none.</summary>
    public double Nearest(int midi, double time) => midi is >= 0 and < 128 ? Distance(onsets[midi], time) : double.PositiveInfinity;

    /// <summary>How far the nearest written note lies from a time.</summary>
    public double Nearest(double time) => Distance(all, time);

    /// <summary>How many notes are written to start within so many seconds of a time.</summary>
    public int Count(double time, double within) => Place(all, time + within) - Place(all, time - within);

    private static double Distance(double[] times, double time)
    {
        var place = Place(times, time);
        return Math.Min(place < times.Length ? times[place] - time : double.PositiveInfinity, place > 0 ? time - times[place - 1] : double.PositiveInfinity);
    }

    private static int Place(double[] times, double time)
    {
        var found = Array.BinarySearch(times, time);
        return found < 0 ? ~found : found;
    }
}
