using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Reading;

/// <summary>What of a song a person stands behind, as claims: whatever was decided or corrected. What was only heard, or assumed, claims nothing.</summary>
public static class SongClaims
{
    /// <param name="song">Its bars, heard or decided, give the times.</param>
    public static Claims Of(Song song)
    {
        var clock = new SongClock(song);
        return new()
        {
            ReferencePitch = Decided(song.ReferencePitch) ? song.ReferencePitch.Value : null,
            Tuning = Decided(song.Tuning) ? song.Tuning.Value : null,
            Capo = Decided(song.Capo) ? song.Capo.Value : null,
            Meter = Decided(song.Meter) ? song.Meter.Value : null,
            Tempo = Decided(song.Tempo) ? TempoRange.About(song.Tempo.Value) : null,
            Beats = [.. song.Sections.SelectMany(s => s.Anchors).Where(a => Decided(a.Standing) && a.Beat.Denominator == 1).Select(BeatOf)],
            Keys = [.. Keys(song, clock)],
            Chords = [.. song.Bars.SelectMany(bar => bar.Chords.Where(c => Decided(c.Standing)).Select(c => new ChordClaim(
                clock.TimeOf(bar.Number, c.Start), clock.TimeOf(bar.Number, c.Start + c.Length), c.Value.Chord, c.Value.Shape)))],
            Borders = [.. Borders(song, clock)],
            HarpKey = song.Harp is { } harp && Decided(harp) ? harp.Value.Key : null,
        };
    }

    private static bool Decided<T>(Fact<T> fact) => Decided(fact.Standing);

    private static bool Decided(Standing standing) => standing.Kind is StandingKind.Decided or StandingKind.Corrected;

    private static BeatClaim BeatOf(Anchor anchor) => new(anchor.At, anchor.Beat.Numerator + 1);

    /// <summary>The song's key where no section leaves it, and each section's own.</summary>
    private static IEnumerable<KeyClaim> Keys(Song song, SongClock clock)
    {
        var first = 1;
        foreach (var section in song.Sections.Where(s => s.Bars.Length > 0))
        {
            var end = first + section.Bars.Length;
            var until = section.Keys.Length > 0 ? first + section.Keys[0].Bar - 1 : end;
            if (Decided(song.Key) && until > first)
                yield return new(clock.TimeOf(first), clock.TimeOf(until), song.Key.Value);
            for (var i = 0; i < section.Keys.Length; i++)
            {
                var next = i + 1 < section.Keys.Length ? first + section.Keys[i + 1].Bar - 1 : end;
                if (Decided(section.Keys[i].Standing))
                    yield return new(clock.TimeOf(first + section.Keys[i].Bar - 1), clock.TimeOf(next), section.Keys[i].Key);
            }
            first = end;
        }
    }

    private static IEnumerable<Seconds> Borders(Song song, SongClock clock)
    {
        var first = 1;
        foreach (var section in song.Sections)
        {
            if (first > 1 && Decided(section.Standing) && section.Bars.Length > 0)
                yield return clock.TimeOf(first);
            first += section.Bars.Length;
        }
    }
}
