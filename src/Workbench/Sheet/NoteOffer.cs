using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;
using Harkbook.Workbench.Desk;

namespace Harkbook.Workbench.Sheet;

/// <summary>A note that may stand in a place of a bar's grid.</summary>
/// <param name="Written">As a song file writes it.</param>
/// <param name="IsHeard">Whether its pitch sounds in the record at that place.</param>
public sealed record NoteOffer(string Written, string Shown, string Pitch, bool IsHeard)
{
    private const int MostFrets = 15, Reach = 7;

    /// <summary>What may stand in a place: the frets of a string, the holes of the harmonica, or pitches near the tune's last one.</summary>
    public static ImmutableArray<NoteOffer> Of(DeskView view, int bar, NoteRow row, Beats from, Beats to)
    {
        var (song, clock) = (view.Song, new SongClock(view.Song));
        var (start, end) = (clock.TimeOf(bar, from), clock.TimeOf(bar, to));
        HashSet<int> heard = [.. (view.Heard?.Notes ?? []).Where(n => n.Onset < end && n.End > start).Select(n => n.Midi)];
        var centre = song.KeyAt(bar).Centre;
        return row.Part switch
        {
            SongPart.Pick => [.. Frets(new Fretboard(song.Tuning.Value, song.Capo.Value), row.StringIndex, centre, heard)],
            SongPart.Tune => [.. Pitches(song, bar, from, centre, heard)],
            _ => [.. Holes(song.Harp?.Value.ToHarmonica(), heard)],
        };
    }

    private static IEnumerable<NoteOffer> Frets(Fretboard neck, int stringIndex, int centre, HashSet<int> heard) =>
        Enumerable.Range(0, Math.Min(MostFrets, neck.LastFret(stringIndex)) + 1).Select(fret => new NoteOffer($"{fret}", $"{fret}",
            $"{neck.PitchAt(stringIndex, fret, centre)}", heard.Contains(neck.MidiAt(stringIndex, fret))));

    private static IEnumerable<NoteOffer> Pitches(Song song, int bar, Beats at, int centre, HashSet<int> heard)
    {
        var last = song.Bars.Take(bar).Reverse().SelectMany(b => b.Tune.Where(t => b.Number < bar || t.Start < at).Reverse()).FirstOrDefault();
        var middle = last?.Value.Pitch.Midi ?? song.Bars.SelectMany(b => b.Tune).FirstOrDefault()?.Value.Pitch.Midi ?? 67;
        return Enumerable.Range(middle - Reach, 2 * Reach + 1).Select(midi => Music.Theory.Pitch.FromMidi(midi, centre))
            .Select(p => new NoteOffer($"{p}", $"{p}", "", heard.Contains(p.Midi)));
    }

    private static IEnumerable<NoteOffer> Holes(Harmonica? harp, HashSet<int> heard) => harp is null ? []
        : harp.AllNotes.OrderBy(n => n.Technique).ThenBy(n => n.Breath).ThenBy(n => n.Hole).Where(n => n.Technique != HarpTechnique.OverBent)
            .Select(n => new NoteOffer($"{n}", $"{n}", $"{harp.PitchOf(n)}", heard.Contains(harp.PitchOf(n).Midi)));
}
