using System.Collections.Immutable;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>Lays strokes on the places of strummed bars.</summary>
internal sealed class StrumPlacing(PlayingModel model, Hearing hearing, BeatAxis axis, ImmutableArray<Bar> chords)
{
    private readonly StrokeEvidence evidence = new(model, hearing);
    private readonly Fretboard neck = new(hearing.Tuning.Best.Tuning, hearing.Tuning.Best.Capo);

    /// <summary>The strokes of each bar of a run.</summary>
    public IEnumerable<(int Bar, ImmutableArray<Claim<Stroke>> Strokes)> Place(BarRun run, ImmutableArray<PlayedBar> bars)
    {
        var placed = new List<(int Bar, Beats Start, StrokeState State, double Sure)>();
        foreach (var alike in Enumerable.Range(run.First, run.End - run.First).GroupBy(b => (axis.Bars[b].Meter, bars[b].Grid)))
        {
            var places = Places(alike.Key.Meter, alike.Key.Grid);
            var read = new StrokePattern(model).Read([.. alike.Select(b => places.Select(p => At(b, p)).ToArray())],
                [.. places.Select(p => Swing(p, alike.Key.Grid))]);
            placed.AddRange(alike.Zip(read, (bar, states) => states.Select((s, i) => (bar, places[i], s.State, s.Sure))).SelectMany(s => s));
        }
        var strokes = placed.Where(p => p.State != StrokeState.Nothing).OrderBy(p => p.Bar).ThenBy(p => p.Start).ToList();
        if (strokes.Count == 0)
            yield break;
        var standing = Standing.HeardToThePercent(strokes.Average(s => s.Sure) * Enumerable.Range(run.First, run.End - run.First).Average(b => bars[b].Sure));
        var spans = new Spans(axis, run);
        for (var bar = run.First; bar < run.End; bar++)
        {
            yield return (bar, [.. strokes.Index().Where(s => s.Item.Bar == bar).Select(s => new Claim<Stroke>(s.Item.Start,
                spans.Length((bar, s.Item.Start), s.Index + 1 < strokes.Count ? (strokes[s.Index + 1].Bar, strokes[s.Index + 1].Start) : null),
                StrokeOf(s.Item.State), standing))]);
        }
    }

    private static ImmutableArray<Beats> Places(Meter meter, Subdivision grid) =>
        [.. Enumerable.Range(0, meter.BeatsPerBar).SelectMany(beat => grid.Places.Select(p => Beats.Whole(beat) + p))];

    /// <summary>The hand swings down and up in turn through the places of a beat; of three it goes down, or with the first of each pair.</summary>
    private static (bool Down, bool Beat) Swing(Beats place, Subdivision grid)
    {
        var index = grid.Places.IndexOf(place - Beats.Whole((int)Math.Floor(place.Value)));
        return (grid.Places.Length == 3 ? index < 2 : index % 2 == 0, index == 0);
    }

    private double[] At(int bar, Beats place)
    {
        var pitches = SongNotes.ShapeAt(chords[bar], place) is { } shape ? SongNotes.Sounding(shape, neck) : [];
        return evidence.At(axis.TimeOf(axis.Bars[bar].FirstBeat + place.Value), pitches);
    }

    private static Stroke StrokeOf(StrokeState state) => state switch
    {
        StrokeState.Down => Stroke.Down,
        StrokeState.Up => Stroke.Up,
        _ => Stroke.Muted,
    };
}
