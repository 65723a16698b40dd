using Harkbook.Listening.Checking.Strokes;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking.Notes;

/// <summary>
/// What speaks for a note being picked, where the note before on its string still rings: a clear start. For one that is hammered, pulled or slid: a soft
/// one.
/// </summary>
internal sealed class AttackFeatures(Song song, SongClock clock, HeardStarts starts, StrikeCurve curve)
{
    private const double Reach = 0.06, Before = 0.08, Gap = 0.03;

    private readonly Fretboard neck = new(song.Tuning.Value, song.Capo.Value);

    /// <summary>The notes that could be either: another is picked on the same string at most a beat before.</summary>
    public static IEnumerable<(Claim<PickedNote> Note, Claim<PickedNote> Last)> Asked(Bar bar)
    {
        foreach (var note in bar.Picked.Where(p => p.Value is { IsMuted: false, TouchedAt: null } && (IsJoined(p.Value) || p.Value.Attack == Attack.Picked)))
        {
            var last = bar.Picked.LastOrDefault(l => l.Value.StringIndex == note.Value.StringIndex && l.Start < note.Start);
            if (last is { Value.IsMuted: false } && last.Value.Fret != note.Value.Fret && (note.Start - last.Start).Value <= 1)
                yield return (note, last);
        }
    }

    public static bool IsJoined(PickedNote note) => note.Attack is Attack.HammeredOn or Attack.PulledOff or Attack.Slid;

    /// <param name="isJoined">Whether it is claimed to be hammered, pulled or slid.</param>
    public Feature[] Of(Bar bar, Claim<PickedNote> note, Claim<PickedNote> last, bool isJoined)
    {
        var (midi, before) = (note.Value.MidiOn(neck)!.Value, last.Value.MidiOn(neck)!.Value);
        var (at, from) = (clock.TimeOf(bar.Number, note.Start).Value, clock.TimeOf(bar.Number, last.Start).Value);
        var way = isJoined ? -1 : 1;
        return
        [
            new("start", way * starts.At(midi, at, Reach)),
            new("strike", way * curve.Strongest(at - Reach, at + Reach).Log),
            new("level", way * starts.Level(midi, at, at + Reach)),
            new("louder", way * (starts.Level(midi, at, at + Reach) - starts.Level(before, from, from + Reach))),
            new("grows", way * (starts.Level(midi, at, at + Reach) - starts.Level(midi, at - Before, at - Gap))),
            new("rings on", way * starts.Sounds(before, at - Before, at - Gap)),
            new("up", way * (note.Value.Fret > last.Value.Fret ? 1 : 0)),
            new("joined", isJoined ? 1 : 0),
        ];
    }
}
