using System.Collections.Immutable;
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

    /// <summary>What of a song can be checked so, in words that say that it holds; empty where there is nothing of the kind.</summary>
    public static ImmutableArray<string> Asked(Song song)
    {
        var (shapes, blown) = (song.Shapes.Length, song.Harp is null ? 0 : song.Bars.Sum(b => b.Harp.Length));
        string[] held = shapes == 0 ? [] : [shapes == 1 ? "the shape sounds the chord that it is named for, and a hand holds it"
            : $"all {shapes} shapes sound the chords that they are named for, and a hand holds them"];
        return blown == 0 ? [.. held] : [.. held, blown == 1 ? "the harmonica has the note that it is given"
            : $"the harmonica has all {blown} notes that it is given"];
    }

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
