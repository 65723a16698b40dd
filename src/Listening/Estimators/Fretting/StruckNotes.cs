using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>Notes that start together: a strum, a pinch or a single note.</summary>
/// <param name="Notes">Indices into the list of all notes, rising in pitch.</param>
internal sealed record StruckNotes(double Time, ImmutableArray<int> Notes)
{
    /// <summary>A strum may take as long from its first string to its last; between two of its strings passes less.</summary>
    private const double LongestStrum = 0.08, LongestGap = 0.03, Unison = 0.001;

    public static List<StruckNotes> Of(ImmutableArray<HeardNote> notes)
    {
        var rising = Enumerable.Range(0, notes.Length).OrderBy(i => notes[i].Onset).ThenBy(i => notes[i].Midi).ToArray();
        var groups = new List<StruckNotes>();
        for (int from = 0, to; from < rising.Length; from = to)
        {
            to = from + 1;
            while (to < rising.Length && Joins(notes, rising, from, to))
                to++;
            groups.Add(new(notes[rising[from]].Onset.Value, [.. rising[from..to].OrderBy(i => notes[i].Midi)]));
        }
        return groups;
    }

    /// <summary>At most so many of the notes, the surest.</summary>
    public StruckNotes Strongest(int count, ImmutableArray<HeardNote> notes) => Notes.Length <= count ? this
        : this with { Notes = [.. Notes.OrderByDescending(i => notes[i].Confidence).Take(count).OrderBy(i => notes[i].Midi)] };

    /// <summary>The same pitch again is a new stroke, unless it is at the very same time: a unison on two strings.</summary>
    private static bool Joins(ImmutableArray<HeardNote> notes, int[] rising, int from, int next)
    {
        var note = notes[rising[next]];
        if ((note.Onset - notes[rising[next - 1]].Onset).Value > LongestGap || (note.Onset - notes[rising[from]].Onset).Value > LongestStrum)
            return false;
        for (var i = from; i < next; i++)
        {
            if (notes[rising[i]].Midi == note.Midi && (note.Onset - notes[rising[i]].Onset).Value > Unison)
                return false;
        }
        return true;
    }
}
