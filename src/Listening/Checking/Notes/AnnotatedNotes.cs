using System.Collections.Immutable;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking.Notes;

internal static class AnnotatedNotes
{
    /// <summary>Sharps and flats as in C major or A minor: an annotation tells no key for its notes.</summary>
    private const int Centre = 2;

    public static IEnumerable<Finding> Weigh(ImmutableArray<NoteClaim> notes, HeardStarts starts, Hearing hearing)
    {
        if (notes.IsEmpty)
            return [];
        var written = new WrittenNotes(notes.Select(n => new WrittenNote(n.Midi, n.Onset, n.End)));
        var (from, to) = (notes.Min(n => n.Onset), notes.Max(n => n.End));
        var (weigher, unwritten) = (new NoteWeigher(starts, written), new UnwrittenNotes(starts, written, hearing, [(from, to)]));
        return notes.Select(n => weigher.Weigh(n, Words(n.Midi), new(Seconds.FromSeconds(n.Onset))))
            .Concat(unwritten.Between(from, to, Centre, time => new(time)));
    }

    private static NoteWords Words(int midi) => new(Named(midi), Centre, by => Named(midi + by), "nothing", null);

    private static string Named(int midi) => Pitch.FromMidi(midi, Centre).ToString();
}
