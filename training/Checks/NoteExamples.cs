using Harkbook.Listening;
using Harkbook.Listening.Checking.Notes;
using Harkbook.Listening.Checking.Weighing;

namespace Harkbook.Training.Checks;

/// <summary>A note that is right, the same note with each error, and the same note left out.</summary>
internal static class NoteExamples
{
    private static readonly int[] Off = [-2, -1, 1, 2, -12, 12];

    public static IEnumerable<Example> Of(HeardStarts starts, List<WrittenNote> notes, NoteClaim claim, double eighth, string piece, Random random)
    {
        var right = new PickFeatures(starts, new(notes));
        yield return new("Note", piece, "", right.Here(claim));
        yield return new("NoteOrNone", piece, "", right.There(claim));
        foreach (var by in Off)
        {
            if (Planted(claim with { Midi = claim.Midi + by }) is { } off)
                yield return new("Note", piece, Math.Abs(by) == 12 ? "octave off" : $"{(Math.Abs(by) == 1 ? "semitone" : "tone")} off", off);
        }
        foreach (var later in new[] { eighth, -eighth })
        {
            if (Planted(claim with { Onset = claim.Onset + later, End = Math.Max(claim.End, claim.Onset + later + 0.1) }) is { } moved)
                yield return new("Note", piece, "eighth off", moved);
        }
        var extra = claim with { Midi = claim.Midi + random.Next(-7, 8), Onset = claim.Onset + random.Next(-1, 2) * eighth };
        if (!IsWritten(extra, notes))
            yield return new("NoteOrNone", piece, "extra", new PickFeatures(starts, new(notes.Append(new(extra.Midi, extra.Onset, extra.End)))).There(extra));

        Feature[]? Planted(NoteClaim wrong)
        {
            var others = Without(notes, claim);
            return IsWritten(wrong, others) ? null
                : new PickFeatures(starts, new(others.Append(new(wrong.Midi, wrong.Onset, wrong.End)))).Here(wrong);
        }
    }

    public static IEnumerable<Example> Unwritten(HeardStarts starts, List<WrittenNote> notes, Hearing hearing, double from, double to, string piece)
    {
        var right = new UnwrittenFeatures(starts, new(notes), hearing);
        foreach (var heard in right.Unwritten(from, to))
            yield return new("Silence", piece, "", right.Of(heard));
        foreach (var missing in notes.Where(n => n.Onset >= from && n.Onset < to))
        {
            var left = notes.Where(n => n != missing).ToList();
            if (left.Any(n => n.Midi == missing.Midi && Math.Abs(n.Onset - missing.Onset) < 0.1))
                continue;
            var planted = new UnwrittenFeatures(starts, new(left), hearing);
            var heard = planted.Unwritten(missing.Onset - 0.09, missing.Onset + 0.09).Where(n => n.Midi == missing.Midi).ToList();
            if (heard.Count > 0)
                yield return new("Silence", piece, "note left out", planted.Of(heard[0]));
        }
    }

    private static bool IsWritten(NoteClaim claim, List<WrittenNote> notes) => notes.Any(n => n.Midi == claim.Midi && Math.Abs(n.Onset - claim.Onset) < 0.1);

    private static List<WrittenNote> Without(List<WrittenNote> notes, NoteClaim claim)
    {
        var left = notes.ToList();
        left.RemoveAt(left.FindIndex(n => n.Midi == claim.Midi && n.Onset == claim.Onset));
        return left;
    }
}
