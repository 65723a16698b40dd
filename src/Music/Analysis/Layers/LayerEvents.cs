using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>Every note of a song's parts, on the song's own count.</summary>
internal sealed class LayerEvents
{
    private readonly Song song;
    private readonly Fretboard neck;
    private readonly Harmonica? harp;
    private readonly Ringing ringing;

    public LayerEvents(Song song)
    {
        this.song = song;
        neck = new(song.Tuning.Value, song.Capo.Value);
        harp = song.Harp?.Value.ToHarmonica();
        ringing = new(song);
    }

    /// <summary>Each bar with its start in felt beats from the song's start.</summary>
    public IEnumerable<(Bar Bar, Beats Start)> Bars()
    {
        var start = Beats.Zero;
        foreach (var bar in song.Bars)
        {
            yield return (bar, start);
            start += bar.Meter.BarLength;
        }
    }

    public List<SoundingEvent> All()
    {
        var starts = Bars().ToDictionary(b => b.Bar.Number, b => b.Start);
        return [.. song.Sections.SelectMany(section => section.Bars.SelectMany(bar => InBar(section, bar, starts[bar.Number])))];
    }

    /// <summary>The tune's notes, which stand over the other parts.</summary>
    public IEnumerable<SoundingEvent> Tune() =>
        from section in song.Sections
        let played = song.TunePlayerIn(section) == TunePlayer.Voice ? "sung" : song.TunePlayerIn(section).InWords()
        from bar in Bars().Where(b => section.Bars.Any(own => own.Number == b.Bar.Number))
        from note in bar.Bar.Tune
        select new SoundingEvent(bar.Start + note.Start, bar.Start + note.Start + note.Length, new(Layer.Tune, note.Value.Meant, played));

    private IEnumerable<SoundingEvent> InBar(Section section, Bar bar, Beats start)
    {
        var key = song.KeyAt(bar.Number);
        var isStrummed = !bar.Strums.IsEmpty || section.Bars.All(b => b.Strums.IsEmpty && b.Picked.IsEmpty);
        var strummed = isStrummed
            ? bar.Chords.SelectMany(c => Strummed(c.Value, key).Select(n => new SoundingEvent(start + c.Start, start + c.Start + c.Length, n))) : [];
        var picked = bar.Picked.SelectMany(p => Picked(p.Value, ChordAt(bar, p.Start), key).Select(n => new SoundingEvent(start + p.Start, start + p.Start
            + ringing.LengthOf(bar, p), n)));
        var blown = bar.Harp.Where(h => harp?.Has(h.Value) == true)
            .Select(h => new SoundingEvent(start + h.Start, start + h.Start + h.Length, Blown(h.Value, ChordAt(bar, h.Start), key)));
        return [.. strummed, .. picked, .. blown];
    }

    private IEnumerable<LayerNote> Strummed(ChordUse use, Key key) =>
        use.Shape is { } shape && shape.Frets.Length == neck.Tuning.Count
            ? Enumerable.Range(0, shape.Frets.Length).Where(i => shape.Frets[i] is not null).Select(i =>
                OnString(Layer.Strummed, i, shape.Frets[i]!.Value, neck.MidiAt(i, shape.Frets[i]!.Value), use.Chord, key))
            : [];

    /// <summary>The pitch that is meant: a bend's top, a harmonic's own. A muted note has none.</summary>
    private IEnumerable<LayerNote> Picked(PickedNote note, Chord? chord, Key key) =>
        note.MidiOn(neck) is { } midi ? [OnString(Layer.Picked, note.StringIndex, note.TouchedAt ?? note.Fret, midi, chord, key)] : [];

    private LayerNote OnString(Layer layer, int index, int fret, int midi, Chord? chord, Key key) =>
        LayerNote.OnString(layer, NoteSpelling.Of(midi, chord, key), neck.Tuning.StringNumber(index), fret);

    private LayerNote Blown(HarpNote note, Chord? chord, Key key) =>
        new(Layer.Harmonica, NoteSpelling.Of(harp!.PitchOf(note).Midi, chord, key), BreathWords.Of(note));

    internal static Chord? ChordAt(Bar bar, Beats at) => bar.Chords.LastOrDefault(c => c.Start <= at)?.Value.Chord;
}
