using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>Picked notes as they sound in a song, on the frets of another capo: on their own string where it reaches so low, else on the nearest free one.</summary>
internal sealed class PickedUnderCapo(Song song, Capo capo)
{
    private const int Highest = 20;

    private readonly Fretboard before = new(song.Tuning.Value, song.Capo.Value);
    private readonly Fretboard after = new(song.Tuning.Value, capo);
    private string missing = "";

    public ImmutableArray<Section> Sections(out string problem)
    {
        ImmutableArray<Section> sections = [.. song.Sections.Select(s => s with { Bars = [.. s.Bars.Select(Moved)] })];
        problem = missing;
        return sections;
    }

    private Bar Moved(Bar bar) => bar with
    {
        Picked = [.. bar.Picked.GroupBy(p => p.Start).SelectMany(g => Together(bar, [.. g])).OrderBy(p => p.Start).ThenBy(p => p.Value.StringIndex)],
    };

    /// <summary>Notes that start together, each on a string of its own.</summary>
    private IEnumerable<Claim<PickedNote>> Together(Bar bar, ImmutableArray<Claim<PickedNote>> notes)
    {
        var taken = notes.Where(n => Fret(n.Value, n.Value.StringIndex) is not null).Select(n => n.Value.StringIndex).ToHashSet();
        foreach (var note in notes)
        {
            if (Fret(note.Value, note.Value.StringIndex) is { } own)
                yield return note with { Value = note.Value with { Fret = own } };
            else if (Elsewhere(note.Value, taken) is { } place)
                yield return note with { Value = note.Value with { StringIndex = place.String, Fret = place.Fret, Attack = Attack.Picked } };
            else
                Miss(bar, note.Value);
        }
    }

    private (int String, int Fret)? Elsewhere(PickedNote note, HashSet<int> taken)
    {
        var free = Enumerable.Range(0, after.Tuning.Count).Where(s => !taken.Contains(s)).OrderBy(s => Math.Abs(s - note.StringIndex));
        foreach (var index in free)
        {
            if (Fret(note, index) is not { } fret)
                continue;
            taken.Add(index);
            return (index, fret);
        }
        return null;
    }

    private int? Fret(PickedNote note, int stringIndex)
    {
        var fret = before.MidiAt(note.StringIndex, note.Fret) - after.MidiAt(stringIndex, 0);
        return fret is >= 0 and <= Highest ? fret : null;
    }

    private void Miss(Bar bar, PickedNote note)
    {
        if (missing.Length == 0)
            missing = $"{before.PitchAt(note.StringIndex, note.Fret, song.Key.Value.Centre)}, picked in bar {bar.Number}, lies on no free string with the capo on fret {capo.Fret}";
    }
}
