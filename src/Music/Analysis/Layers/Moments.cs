using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>
/// Cuts a song wherever a note starts or stops or the chord changes. A strummed shape sounds as long as its chord is claimed in
/// bars that have strokes (or in sections that claim chords only); picked notes ring as long as the song file says.
/// </summary>
public static class Moments
{
    /// <summary>In order; stretches in which nothing sounds are left out.</summary>
    public static ImmutableArray<Moment> Of(Song song)
    {
        var source = new LayerEvents(song);
        var events = source.All();
        return [.. source.Bars().SelectMany(b => InBar(b.Bar, b.Start, events))];
    }

    private static IEnumerable<Moment> InBar(Bar bar, Beats start, List<SoundingEvent> events)
    {
        var end = start + bar.Meter.BarLength;
        var sounding = events.Where(e => e.Sounds(start, end)).ToArray();
        Beats[] cuts = [.. sounding.SelectMany(e => new[] { e.Start, e.End }).Concat(bar.Chords.Select(c => start + c.Start)).Append(start).Append(end)
            .Where(c => c >= start && c <= end).Distinct().Order()];
        foreach (var (from, to) in cuts.Zip(cuts.Skip(1)))
        {
            ImmutableArray<LayerNote> notes = [.. sounding.Where(e => e.Sounds(from, to)).Select(e => e.Note).OrderBy(n => n.Pitch.Midi).ThenBy(n => n.Layer)];
            if (!notes.IsEmpty)
                yield return new(new(bar.Number, from - start, to - from), bar.Chords.LastOrDefault(c => start + c.Start <= from)?.Value, notes);
        }
    }
}
