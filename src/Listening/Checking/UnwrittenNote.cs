using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>A note that was heard in a bar and that the song doesn't claim there.</summary>
/// <param name="At">Where it starts, on the nearest division of the beat.</param>
/// <param name="Place">Where on the neck it lies in the song's tuning: as it was heard where that holds, else nearest the nut; null where no string has
/// it.</param>
public sealed record UnwrittenNote(HeardNote Note, Beats At, FretPlace? Place)
{
    /// <summary>A claim that starts or ends so near a heard note's start still is that note's; players and records are no more exact.</summary>
    private static readonly Seconds slack = Seconds.FromMilliseconds(120);

    /// <summary>What sounds in a bar besides the song's claims, the surest first.</summary>
    /// <param name="divisions">Of a beat.</param>
    public static ImmutableArray<UnwrittenNote> In(Song song, Hearing heard, int barNumber, int divisions)
    {
        var (clock, bar) = (new SongClock(song), song.Bars.ElementAt(barNumber - 1));
        var (start, end) = (clock.TimeOf(barNumber), clock.TimeOf(barNumber + 1));
        var claims = ClaimedSound.Of(song).Concat(ClaimedSound.OfHeldShapes(song)).Where(c => c.End > start - slack && c.Start < end + slack)
            .ToLookup(c => c.Midi);
        var neck = new Fretboard(song.Tuning.Value, song.Capo.Value);
        return
        [
            .. from note in heard.Notes
               where note.Onset >= start && note.Onset < end
               where !claims[note.Midi].Any(c => note.Onset + slack >= c.Start && note.Onset < c.End + slack)
               orderby note.Confidence descending
               select new UnwrittenNote(note, Nearest(clock.PlaceOf(note.Onset).BeatInBar, divisions, bar), PlaceOf(note, neck)),
        ];
    }

    private static Beats Nearest(double beat, int divisions, Bar bar) =>
        Beats.Fraction(Math.Clamp((int)Math.Round(beat * divisions), 0, bar.Meter.BeatsPerBar * divisions - 1), divisions);

    private static FretPlace? PlaceOf(HeardNote note, Fretboard neck)
    {
        var places = neck.PlacesOf(note.Midi);
        return places.IsEmpty ? null : places.Cast<FretPlace?>().FirstOrDefault(p => note.Place is { } heard && p!.Value.StringIndex == heard.StringIndex
            && p.Value.Fret == heard.Fret) ?? places.MinBy(p => p.Fret);
    }
}
