using Harkbook.Listening;
using Harkbook.Listening.Checking.Notes;
using Harkbook.Listening.Checking.Weighing;

namespace Harkbook.Training.Checks;

/// <summary>A note that is right, the same note with each error, one too many, and the same note left out.</summary>
internal static class NoteExamples
{
    private const double Same = 0.1;

    private static readonly int[] steps = [-2, -1, 1, 2], leaps = [-7, -5, -4, 3, 5, 7];

    public static IEnumerable<Example> Right(HeardStarts starts, List<WrittenNote> notes, IEnumerable<NoteClaim> claims, string piece)
    {
        var written = new WrittenNotes(notes);
        var (features, beyond) = (new NoteClaimFeatures(starts, written), new BeyondFeatures(starts, written));
        return claims.Select(c => starts.Holds(c.Midi) ? new Example("Note", piece, "", features.Of(c)) : new("NoteBeyond", piece, "", beyond.Of(c)));
    }

    public static IEnumerable<Example> Wrong(HeardStarts starts, List<WrittenNote> notes, NoteClaim claim, double eighth, string piece, Random random)
    {
        var others = Without(notes, claim);
        var later = random.Next(2) == 0 ? eighth : -eighth;
        var (off, octave, many) = (steps[random.Next(4)], random.Next(2) == 0 ? 12 : -12, leaps[random.Next(6)]);
        (string Error, NoteClaim Claim, List<WrittenNote> Others)[] planted =
        [
            ("a step off", claim with { Midi = claim.Midi + off, IsJoined = false }, others),
            ("an octave off", claim with { Midi = claim.Midi + octave, IsJoined = false }, others),
            ("an eighth off", claim with { Onset = claim.Onset + later, End = Math.Max(claim.End, claim.Onset + later + 0.1) }, others),
            ("too many", claim with { Midi = claim.Midi + many, Onset = claim.Onset + eighth, End = claim.End + eighth, IsJoined = false }, notes),
        ];
        return from p in planted
               where !p.Others.Any(n => n.Midi == p.Claim.Midi && Math.Abs(n.Onset - p.Claim.Onset) < Same)
               let all = new WrittenNotes(p.Others.Append(new(p.Claim.Midi, p.Claim.Onset, p.Claim.End)))
               select starts.Holds(p.Claim.Midi) ? new Example("Note", piece, p.Error, new NoteClaimFeatures(starts, all).Of(p.Claim))
                   : new("NoteBeyond", piece, p.Error, new BeyondFeatures(starts, all).Of(p.Claim));
    }

    /// <param name="isOthers">Whether a heard note belongs to somebody whose notes aren't written.</param>
    public static IEnumerable<Example> Unwritten(HeardStarts starts, List<WrittenNote> notes, Hearing hearing, (double From, double To)[] complete,
        Func<HeardNote, bool> isOthers, string piece)
    {
        var minutes = Math.Max(1, complete.Sum(s => s.To - s.From)) / 60;
        List<HeardNote> In(WrittenNotes written) =>
            [.. complete.SelectMany(s => UnwrittenNotes.In(hearing, written, s.From, s.To)).Where(n => !isOthers(n))];
        var (written, found) = (new WrittenNotes(notes), In(new(notes)));
        var right = new UnwrittenFeatures(starts, written, found, minutes);
        foreach (var heard in found)
            yield return new("Silence", piece, "", right.Of(heard));
        foreach (var missing in notes.Where(n => complete.Any(s => n.Onset >= s.From && n.Onset < s.To)))
        {
            var left = notes.Where(n => n != missing).ToList();
            if (left.Any(n => n.Midi == missing.Midi && Math.Abs(n.Onset - missing.Onset) < Same))
                continue;
            var without = new WrittenNotes(left);
            var more = hearing.Notes.FirstOrDefault(n => n.Midi == missing.Midi && Math.Abs(n.Onset.Value - missing.Onset) < UnwrittenFeatures.Same);
            if (more is not null && !isOthers(more))
                yield return new("Silence", piece, "note left out", new UnwrittenFeatures(starts, without, [.. found, more], minutes).Of(more));
        }
    }

    private static List<WrittenNote> Without(List<WrittenNote> notes, NoteClaim claim)
    {
        var left = notes.ToList();
        left.RemoveAt(left.FindIndex(n => n.Midi == claim.Midi && n.Onset == claim.Onset));
        return left;
    }
}
