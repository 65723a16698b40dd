using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>
/// Weighs claimed notes: did this pitch start here, and did it sound? Evidence for a neighbour a semitone away counts
/// against a claim, since strong notes leak into their neighbours.
/// </summary>
public sealed class NoteWeigher(Hearing hearing, CheckOptions options)
{
    private readonly NotePosteriorgram evidence = hearing.Evidence.Notes;

    private readonly ILookup<int, HeardNote> notesByMidi = hearing.Notes
        .Concat(hearing.Lines.Found.SelectMany(l => l.Notes).Select(n => new HeardNote(n.Midi, n.Onset, n.End, n.Confidence, 0)))
        .ToLookup(n => n.Midi);

    /// <param name="midi">About the recording's own reference pitch.</param>
    /// <param name="bentBy">Semitones that the note is bent by to reach its pitch; it may be heard anywhere on the way.</param>
    /// <returns>0–1.</returns>
    public double Support(int midi, Seconds onset, Seconds end, int bentBy = 0)
    {
        var own = Enumerable.Range(midi - bentBy, bentBy + 1).Max(m => Strength(m, onset, end));
        var neighbours = Math.Max(Strength(midi - bentBy - 1, onset, end), Strength(midi + 1, onset, end));
        return own * Math.Clamp(1.5 - neighbours / Math.Max(own, 1e-6), 0.2, 1);
    }

    public Finding Weigh(int midi, Seconds onset, Seconds end, string claim, Place where, int bentBy = 0)
    {
        var support = Support(midi, onset, end, bentBy);
        var verdict = options.JudgeNote(support);
        return new(ClaimKind.Note, verdict, support, where, claim);
    }

    private double Strength(int midi, Seconds onset, Seconds end)
    {
        var pitch = midi - evidence.LowestMidi;
        if (pitch < 0 || pitch >= evidence.Pitches || evidence.Frames == 0)
            return 0;
        var found = notesByMidi[midi]
            .Where(n => Math.Abs((n.Onset - onset).Value) <= options.OnsetWindow)
            .Select(n => 0.5 + 0.5 * n.Confidence).DefaultIfEmpty().Max();
        var window = Seconds.FromSeconds(options.OnsetWindow);
        var starts = Greatest(evidence.Onset, pitch, onset - window, onset + window);
        var sounds = Mean(evidence.Sounding, pitch, onset, Earlier(end, onset + Seconds.FromSeconds(0.25)));
        return Math.Max(found, Math.Sqrt(starts * sounds));
    }

    private double Greatest(PosteriorMatrix matrix, int pitch, Seconds from, Seconds to)
    {
        var greatest = 0f;
        for (var f = evidence.FrameAt(from); f <= evidence.FrameAt(to); f++)
            greatest = Math.Max(greatest, matrix[f, pitch]);
        return greatest;
    }

    private double Mean(PosteriorMatrix matrix, int pitch, Seconds from, Seconds to)
    {
        var (first, last) = (evidence.FrameAt(from), evidence.FrameAt(to));
        var sum = 0.0;
        for (var f = first; f <= last; f++)
            sum += matrix[f, pitch];
        return sum / (last - first + 1);
    }

    private static Seconds Earlier(Seconds a, Seconds b) => a < b ? a : b;
}
