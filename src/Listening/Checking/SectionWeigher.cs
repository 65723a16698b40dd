using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking;

/// <summary>
/// Weighs sections that are like an earlier one, chord for chord: are they really alike? Then what is claimed of both is heard in both, so a section is
/// as sure as its chords are on the mean.
/// </summary>
internal static class SectionWeigher
{
    /// <param name="chords">The findings about the song's chords.</param>
    public static IEnumerable<Finding> Weigh(Song song, SongClock clock, IReadOnlyList<Finding> chords)
    {
        for (var i = 1; i < song.Sections.Length; i++)
        {
            var section = song.Sections[i];
            if (song.Sections.Take(i).LastOrDefault(s => AreAlike(s, section)) is not { } like)
                continue;
            var (first, last) = (section.Bars[0].Number, section.Bars[^1].Number);
            var own = chords.Where(f => f.Where?.Bar >= first && f.Where.Bar <= last && f.LogOdds is not null).ToArray();
            if (own.Length == 0)
                continue;
            var other = own.Where(f => f.LogOdds < 0).ToArray();
            yield return Finding.Weighed(ClaimKind.Section, own.Average(f => f.LogOdds!.Value), new(clock.TimeOf(first), first, 1),
                $"{section.Name} like {like.Name}",
                other.Length == 0 ? null
                : $"{other.Length} of {own.Length} chords are heard otherwise here, first {other[0].Suggestion} in bar {other[0].Where!.Bar}");
        }
    }

    private static bool AreAlike(Section a, Section b) =>
        b.Bars.Length > 1 && a.Bars.Length >= b.Bars.Length && b.Bars.Any(bar => !bar.Chords.IsEmpty)
        && a.Bars.Zip(b.Bars).All(p => p.First.Chords.AsSpan().SequenceEqual(p.Second.Chords.AsSpan()));
}
