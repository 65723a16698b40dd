using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>One stroke over a shape, from its place until the hand lets go.</summary>
internal sealed record TimedStroke(int Bar, Beats Start, Seconds At, Seconds Until, Stroke Stroke, Shape Shape);

/// <summary>Finds the strokes of a song: those that are written, and a plain one on each beat where a section claims chords only.</summary>
internal static class Strokes
{
    public static List<TimedStroke> Of(Song song, IBarTimes times)
    {
        var neck = new Fretboard(song.Tuning.Value, song.Capo.Value);
        var strokes = song.Sections.SelectMany(section => section.Bars.SelectMany(bar => InBar(section, bar, neck, times))).ToList();
        for (var i = strokes.Count - 2; i >= 0; i--)
        {
            if (RingsInto(strokes[i], strokes[i + 1]))
                strokes[i] = strokes[i] with { Until = strokes[i + 1].Until };
        }
        return strokes;
    }

    private static IEnumerable<TimedStroke> InBar(Section section, Bar bar, Fretboard neck, IBarTimes times)
    {
        var chordsOnly = section.Bars.All(b => b.Strums.IsEmpty && b.Picked.IsEmpty);
        foreach (var stroke in chordsOnly ? Plain(bar) : bar.Strums)
        {
            var chord = bar.Chords.LastOrDefault(c => c.Start <= stroke.Start);
            if (chord is null || chord.Value.Chord.IsNone)
                continue;
            var shape = chord.Value.Shape ?? PlainVoicing.Of(chord.Value.Chord, neck);
            yield return new(bar.Number, stroke.Start, times.At(bar.Number, stroke.Start), times.At(bar.Number, stroke.Start + stroke.Length),
                stroke.Value, shape);
        }
    }

    private static IEnumerable<Claim<Stroke>> Plain(Bar bar) =>
        Enumerable.Range(0, bar.Meter.BeatsPerBar).Select(beat => new Claim<Stroke>(Beats.Whole(beat), Beats.Whole(1), Stroke.Down, Standing.Decided));

    private static bool RingsInto(TimedStroke stroke, TimedStroke next) =>
        stroke.Shape == next.Shape && Math.Abs((next.At - stroke.Until).Value) < 1e-3;
}
