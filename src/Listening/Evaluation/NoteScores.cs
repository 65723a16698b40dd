using System.Collections.Immutable;
using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Evaluation;

/// <summary>
/// Note transcription scores (Bay, Ehmann &amp; Downie, ISMIR 2009, and mir_eval's conventions): onset within 50 ms,
/// pitch within 50 cents, offset within the larger of 50 ms and 20% of the true length. One-to-one matching.
/// </summary>
public static class NoteScores
{
    /// <summary>Onset and pitch must agree.</summary>
    public static FScore OnsetAndPitch(IReadOnlyList<ScoredNote> reference, IReadOnlyList<ScoredNote> estimated) =>
        Score(reference, estimated, (r, e) => OnsetsAgree(r, e) && PitchesAgree(r, e));

    /// <summary>Onset, pitch and offset must agree.</summary>
    public static FScore OnsetPitchAndOffset(IReadOnlyList<ScoredNote> reference, IReadOnlyList<ScoredNote> estimated) =>
        Score(reference, estimated, (r, e) => OnsetsAgree(r, e) && PitchesAgree(r, e) && OffsetsAgree(r, e));

    /// <summary>Onsets must agree, whatever the pitch.</summary>
    public static FScore OnsetOnly(IReadOnlyList<ScoredNote> reference, IReadOnlyList<ScoredNote> estimated) =>
        Score(reference, estimated, OnsetsAgree);

    /// <summary>For each reference note the estimated note matched with it by onset and pitch, or −1.</summary>
    public static int[] Match(IReadOnlyList<ScoredNote> reference, IReadOnlyList<ScoredNote> estimated) =>
        Match(reference, estimated, (r, e) => OnsetsAgree(r, e) && PitchesAgree(r, e));

    /// <summary>Frame F on a 10 ms grid: pitches (nearest semitone) sounding at the same time.</summary>
    public static FScore Frames(IReadOnlyList<ScoredNote> reference, IReadOnlyList<ScoredNote> estimated)
    {
        var (r, e) = (Sounding(reference), Sounding(estimated));
        return FScore.FromCounts(r.Count(e.Contains), r.Count, e.Count);

        static HashSet<(int Frame, int Midi)> Sounding(IReadOnlyList<ScoredNote> notes) =>
            [.. notes.SelectMany(n => Enumerable
                .Range((int)Math.Ceiling(n.Onset * 100), Math.Max(0, (int)Math.Ceiling(n.End * 100) - (int)Math.Ceiling(n.Onset * 100)))
                .Select(f => (f, (int)Math.Round(n.Midi))))];
    }

    private static FScore Score(IReadOnlyList<ScoredNote> reference, IReadOnlyList<ScoredNote> estimated, Func<ScoredNote, ScoredNote, bool> agree) =>
        FScore.FromCounts(Match(reference, estimated, agree).Count(m => m >= 0), reference.Count, estimated.Count);

    private static int[] Match(IReadOnlyList<ScoredNote> reference, IReadOnlyList<ScoredNote> estimated, Func<ScoredNote, ScoredNote, bool> agree)
    {
        var byOnset = estimated.Select((note, index) => (note, index)).OrderBy(p => p.note.Onset).ToArray();
        var onsets = byOnset.Select(p => p.note.Onset).ToArray();
        var candidates = reference.Select(r => (IReadOnlyList<int>)Near(r).ToImmutableArray()).ToArray();
        return Matching.Largest(candidates, estimated.Count);

        IEnumerable<int> Near(ScoredNote r)
        {
            var start = Array.BinarySearch(onsets, r.Onset - 0.06);
            for (var i = start < 0 ? ~start : start; i < onsets.Length && onsets[i] <= r.Onset + 0.06; i++)
            {
                if (agree(r, byOnset[i].note))
                    yield return byOnset[i].index;
            }
        }
    }

    // Differences in time are rounded to 0.1 ms before they are compared, as mir_eval does.
    private static bool OnsetsAgree(ScoredNote r, ScoredNote e) => Math.Round(Math.Abs(r.Onset - e.Onset), 4) <= 0.05;

    private static bool PitchesAgree(ScoredNote r, ScoredNote e) => Math.Abs(r.Midi - e.Midi) * 100 <= 50 + 1e-9;

    private static bool OffsetsAgree(ScoredNote r, ScoredNote e) =>
        Math.Round(Math.Abs(r.End - e.End), 4) <= Math.Max(0.05, 0.2 * (r.End - r.Onset));
}
