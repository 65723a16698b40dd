using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking;

/// <summary>
/// What needs no recording to be known wrong: a shape whose strings don't sound the chord that it is named for, one that no hand holds, a note that
/// the harmonica doesn't have.
/// </summary>
public static class PaperCheck
{
    public static IEnumerable<Finding> Of(SongDocument document) =>
        document.Song is not { } song ? [] : document.Diagnostics.Where(d => d.Code is DiagnosticCode.ShapeContradicts or DiagnosticCode.FingersUnheld)
            .Select(d => new Finding(ClaimKind.Shape, Verdict.Contradicted, 0, null, $"line {d.Line}", d.Message.TrimEnd('.'), d.Suggestion?.TrimEnd('.')))
            .Concat(LackingNotes(song));

    private static IEnumerable<Finding> LackingNotes(Song song)
    {
        if (song.Harp?.Value is not { } reference)
            return [];
        var (harp, clock) = (reference.ToHarmonica(), new SongClock(song));
        return from bar in song.Bars
               from claim in bar.Harp
               where harp.FindPitch(claim.Value) is null
               select new Finding(ClaimKind.Hole, Verdict.Contradicted, 0, new(clock.TimeOf(bar.Number, claim.Start), bar.Number, claim.Start.Value + 1),
                   $"harmonica {claim.Value}", $"a harp in {reference.Key} has no such note");
    }
}
