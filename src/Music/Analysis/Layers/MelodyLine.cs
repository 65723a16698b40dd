using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>The highest voice of a layer as a line over the song's chords.</summary>
public static class MelodyLine
{
    /// <summary>
    /// The notes of a layer that nothing of it sounds above when they start; each lasts until the next of them starts or it ends.
    /// Where picked notes start one at a time, each ends the one before, though its string may ring.
    /// A note that sounds on under a new chord is parted there. Where no chord is claimed, the line is silent.
    /// </summary>
    public static ImmutableArray<MelodyNote> Of(Song song, Layer layer)
    {
        var source = new LayerEvents(song);
        var sounding = layer == Layer.Tune ? source.Tune() : source.All().Where(e => e.Note.Layer == layer);
        List<SoundingEvent> events = [.. sounding.OrderBy(e => e.Start).ThenByDescending(e => e.Note.Pitch.Midi)];
        var line = layer == Layer.Picked && events.DistinctBy(e => e.Start).Count() == events.Count ? OneAtATime(events) : Highest(events);
        var chords = ChordSpans(source);
        return [.. line.SelectMany(e => Parted(e, chords))];
    }

    private static List<SoundingEvent> OneAtATime(List<SoundingEvent> events) =>
        [.. events.Select((e, i) => i + 1 < events.Count && events[i + 1].Start < e.End ? e with { End = events[i + 1].Start } : e)];

    private static List<SoundingEvent> Highest(List<SoundingEvent> events)
    {
        var line = new List<SoundingEvent>();
        foreach (var e in events)
        {
            if (line.Count > 0 && line[^1].End > e.Start)
            {
                if (line[^1].Start == e.Start || line[^1].Note.Pitch.Midi > e.Note.Pitch.Midi)
                    continue;
                line[^1] = line[^1] with { End = e.Start };
            }
            line.Add(e);
        }
        return line;
    }

    private readonly record struct Span(int Bar, Beats BarStart, Beats Start, Beats End, Chord Chord);

    private static List<Span> ChordSpans(LayerEvents source) =>
    [
        .. source.Bars().SelectMany(b => b.Bar.Chords.Where(c => !c.Value.Chord.IsNone)
            .Select(c => new Span(b.Bar.Number, b.Start, b.Start + c.Start, b.Start + c.Start + c.Length, c.Value.Chord))),
    ];

    /// <summary>One part for each chord; bars of one chord are joined.</summary>
    private static IEnumerable<MelodyNote> Parted(SoundingEvent e, List<Span> chords)
    {
        MelodyNote? part = null;
        foreach (var span in chords.Where(s => e.Sounds(s.Start, s.End)))
        {
            var (start, end) = (e.Start > span.Start ? e.Start : span.Start, e.End < span.End ? e.End : span.End);
            if (part is not null && part.Chord == span.Chord && part.End == start)
            {
                part = part with { End = end, Place = part.Place with { Length = end - part.Start } };
                continue;
            }
            if (part is not null)
                yield return part;
            part = new(new(span.Bar, start - span.BarStart, end - start), start, end, e.Note, span.Chord, IsTied: start > e.Start);
        }
        if (part is not null)
            yield return part;
    }
}
