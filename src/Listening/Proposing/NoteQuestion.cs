using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Notes that are heard for sure in picked bars but aren't written, since they fit no place that the bar is counted in, or no hand.
/// </summary>
public static class NoteQuestion
{
    /// <summary>A note is told from so sure on, and a few of them, the surest.</summary>
    private const double Sure = 0.9;

    private const int Most = 5;

    /// <summary>A written note of the same pitch so near, in seconds, is this one.</summary>
    private const double Near = 0.1;

    /// <summary>Lines for a person, without a comment's sign.</summary>
    public static ImmutableArray<string> Of(Hearing hearing, Song song)
    {
        var picked = song.Bars.Where(b => !b.Picked.IsEmpty).ToDictionary(b => b.Number);
        if (picked.Count == 0)
            return [];
        var clock = new SongClock(song);
        var left = LeftOut(hearing, picked, clock, new(song.Tuning.Value, song.Capo.Value)).OrderByDescending(n => n.Confidence).ToArray();
        return left.Length == 0 ? [] :
        [
            "Surely heard, but not written, since they fit no place that the bar is counted in, or no hand:",
            .. left.Take(Most).OrderBy(n => n.Onset).Select(n => "  " + Told(n, clock, song)),
            .. left.Length > Most ? [$"  and {left.Length - Most} more"] : (string[])[],
            "Listen there, slowed down: a grace note, a triplet or another instrument?",
        ];
    }

    private static IEnumerable<HeardNote> LeftOut(Hearing hearing, Dictionary<int, Bar> picked, SongClock clock, Fretboard neck)
    {
        var written = picked.Values.SelectMany(b => b.Picked.Select(p => (Time: clock.TimeOf(b.Number, p.Start).Value,
            Midi: neck.MidiAt(p.Value.StringIndex, p.Value.Fret)))).ToLookup(w => w.Midi, w => w.Time);
        bool IsPicked(Seconds time) => picked.ContainsKey(clock.PlaceOf(time).BarNumber);
        return hearing.Notes.Where(n => n.Confidence >= Sure && IsPicked(n.Onset) && IsPicked(n.Onset + Seconds.FromSeconds(Near))
            && !written[n.Midi].Any(t => Math.Abs(t - n.Onset.Value) <= Near) && !IsSung(hearing.Lines, n));
    }

    /// <summary>Whether a voice or another instrument sounds the pitch then.</summary>
    private static bool IsSung(HeardLines lines, HeardNote note) => lines.Found.SelectMany(l => l.Notes).Any(s =>
        s.Midi == note.Midi && s.Onset.Value - Near <= note.Onset.Value && note.Onset.Value <= s.End.Value);

    private static string Told(HeardNote note, SongClock clock, Song song)
    {
        var (bar, beat) = clock.PlaceOf(note.Onset);
        return string.Create(CultureInfo.InvariantCulture, $"{Pitch.FromMidi(note.Midi, song.Key.Value.Centre)} in bar {bar}, beat {1 + beat:0.00} ")
            + $"({TimeText.Write(Seconds.FromSeconds(Math.Round(note.Onset.Value, 2)))})";
    }
}
