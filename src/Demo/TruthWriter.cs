using System.Collections.Immutable;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Sounding;
using Harkbook.Units;

namespace Harkbook.Demo;

/// <summary>Writes down what was played, at the times at which the tape has it.</summary>
internal sealed class TruthWriter(Song song, IBarTimes times, TapeTransport transport)
{
    public DemoTruth Write(PlayedTake take) => new()
    {
        ReferencePitch = song.ReferencePitch.Value,
        Key = song.Key.Value,
        Tuning = song.Tuning.Value,
        Capo = song.Capo.Value,
        Meter = song.Meter.Value,
        Beats = [.. song.Bars.SelectMany(BeatsOf)],
        Chords = Chords(),
        Notes = [.. GuitarNotes(take).Concat(OtherNotes(take)).OrderBy(n => n.Onset)],
        Sections = [.. song.Sections.Where(s => s.Bars.Length > 0)
            .Select(s => new TrueSection(At(s.Bars[0].Number, Beats.Zero), At(s.Bars[^1].Number + 1, Beats.Zero), s.Name))],
        HarpKey = song.Harp?.Value.Key,
    };

    private IEnumerable<TrueBeat> BeatsOf(Bar bar) =>
        Enumerable.Range(0, bar.Meter.BeatsPerBar).Select(beat => new TrueBeat(At(bar.Number, Beats.Whole(beat)), beat + 1));

    private ImmutableArray<TrueChord> Chords()
    {
        var chords = ImmutableArray.CreateBuilder<TrueChord>();
        foreach (var bar in song.Bars)
        {
            var at = Beats.Zero;
            foreach (var claim in bar.Chords)
            {
                Add(chords, bar, at, claim.Start, Chord.None);
                Add(chords, bar, claim.Start, at = claim.Start + claim.Length, claim.Value.Chord);
            }
            Add(chords, bar, at, bar.Meter.BarLength, Chord.None);
        }
        return chords.ToImmutable();
    }

    private void Add(ImmutableArray<TrueChord>.Builder chords, Bar bar, Beats from, Beats to, Chord chord)
    {
        if (to <= from)
            return;
        var end = At(bar.Number, to);
        if (chords.Count > 0 && chords[^1].Chord == chord)
            chords[^1] = chords[^1] with { End = end };
        else
            chords.Add(new(At(bar.Number, from), end, chord));
    }

    private IEnumerable<TrueNote> GuitarNotes(PlayedTake take)
    {
        foreach (var onString in take.Guitar.GroupBy(n => n.StringIndex))
        {
            var notes = onString.OrderBy(n => n.At).ToArray();
            for (var i = 0; i < notes.Length; i++)
            {
                var end = i + 1 < notes.Length && notes[i + 1].At < notes[i].Until ? notes[i + 1].At : notes[i].Until;
                if (notes[i].Kind != PluckKind.Choked)
                    yield return new(DemoPart.Guitar, onString.Key, notes[i].Midi, OnTape(notes[i].At), OnTape(end));
            }
        }
    }

    private IEnumerable<TrueNote> OtherNotes(PlayedTake take) =>
        take.Harp.Select(n => new TrueNote(DemoPart.Harp, null, n.Midi, OnTape(n.At), OnTape(n.Until), n.Hole))
            .Concat(take.Voice.Select(n => new TrueNote(DemoPart.Voice, null, n.Midi, OnTape(n.At), OnTape(n.Until))));

    private Seconds At(int bar, Beats inBar) => OnTape(times.At(bar, inBar));

    private Seconds OnTape(Seconds played) => transport.OnTape(played);
}
