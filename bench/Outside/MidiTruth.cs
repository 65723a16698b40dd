using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Theory;

namespace Harkbook.Bench.Outside;

/// <summary>What a MIDI file says of its own rendering, from the start to a time: beats, notes, key and chords.</summary>
public static class MidiTruth
{
    /// <param name="seconds">Where the rendering is cut.</param>
    public static Annotation Of(string midi, double seconds)
    {
        var whole = MidiReader.Read(midi);
        var end = Math.Min(seconds, whole.Duration ?? 0);
        ImmutableArray<ScoredNote> notes = [.. whole.Notes.Where(n => n.Onset < end).Select(n => n with { End = Math.Min(n.End, end) })];
        ImmutableArray<AnnotatedBeat> beats = [.. whole.Beats.Where(b => b.Time < end)];
        return whole with
        {
            Duration = end,
            Notes = notes,
            Beats = beats,
            Keys = KeyOf(notes) is { } key ? [new(0, end, key.ToString())] : [],
            Chords = [.. ChordTruth.Of(notes, beats)],
            ReferenceHertz = 440,
        };
    }

    /// <summary>
    /// The key by Krumhansl and Schmuckler's method on the notes' lengths, where all five published profiles agree on it.
    /// Key signatures don't count: sequencers write C major unasked, and a minor blues stands under a major one.
    /// </summary>
    private static Key? KeyOf(ImmutableArray<ScoredNote> notes)
    {
        var lengths = Lengths(notes);
        return KeyProfiles.All.Select(p => p.Rank(lengths)[0].Key).Distinct().ToArray() is [var agreed] ? agreed : null;
    }

    private static double[] Lengths(ImmutableArray<ScoredNote> notes)
    {
        var lengths = new double[12];
        foreach (var note in notes)
            lengths[(int)note.Midi % 12] += note.End - note.Onset;
        return lengths;
    }
}
