using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Theory;

namespace Harkbook.Bench.Outside;

/// <summary>
/// The chords that notes spell plainly. Of all that sounds in two beats (each pitch class counted once, by time), a chord's
/// notes take at least 85%, and each of them at least 8%: then it is that chord, a triad before a seventh. Two beats that
/// spell nothing plainly have no label and are not judged, nor is silence, since what ended in the file may still ring.
/// </summary>
internal static class ChordTruth
{
    private const int BeatsTogether = 2;
    private const double ChordShare = 0.85;
    private const double LeastNote = 0.08;

    private static readonly (string Name, int[] Semitones)[][] Kinds =
    [
        [("maj", [0, 4, 7]), ("min", [0, 3, 7])],
        [("7", [0, 4, 7, 10]), ("maj7", [0, 4, 7, 11]), ("min7", [0, 3, 7, 10])],
    ];

    public static IEnumerable<AnnotatedSpan> Of(ImmutableArray<ScoredNote> notes, ImmutableArray<AnnotatedBeat> beats) =>
        beats.Select(b => b.Time).Chunk(BeatsTogether).Where(c => c.Length == BeatsTogether)
            .Zip(beats.Skip(BeatsTogether).Select(b => b.Time).Chunk(BeatsTogether), (chunk, next) => (Start: chunk[0], End: next[0]))
            .Select(s => (s.Start, s.End, Label: Label(Shares(notes, s.Start, s.End))))
            .Where(s => s.Label is not null)
            .Select(s => new AnnotatedSpan(s.Start, s.End, s.Label!));

    private static string? Label(double[] shares) =>
        Kinds.Select(kinds => kinds
                .SelectMany(k => Enumerable.Range(0, 12).Select(root => (k.Name, Root: root, Notes: k.Semitones.Select(s => shares[(root + s) % 12]).ToArray())))
                .Where(f => f.Notes.Sum() >= ChordShare && f.Notes.Min() >= LeastNote)
                .Select(f => $"{PitchName.FromPitchClass(f.Root, 2)}:{f.Name}")
                .FirstOrDefault())
            .FirstOrDefault(label => label is not null);

    private static double[] Shares(ImmutableArray<ScoredNote> notes, double start, double end)
    {
        var times = new double[12];
        foreach (var pitchClass in notes.Where(n => n.Onset < end && n.End > start).GroupBy(n => (int)n.Midi % 12))
            times[pitchClass.Key] = Covered(pitchClass, start, end);
        var sum = times.Sum();
        return sum > 0 ? [.. times.Select(t => t / sum)] : times;
    }

    private static double Covered(IEnumerable<ScoredNote> notes, double start, double end)
    {
        var (covered, until) = (0.0, start);
        foreach (var note in notes.OrderBy(n => n.Onset))
        {
            var from = Math.Max(until, note.Onset);
            until = Math.Max(until, Math.Min(note.End, end));
            covered += Math.Max(0, until - from);
        }
        return covered;
    }
}
