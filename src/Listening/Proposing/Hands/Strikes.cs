using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What the guitar strikes: its heard notes, those that start together as one. What a voice or a second instrument sounds is left out.</summary>
internal static class Strikes
{
    /// <summary>A note that starts so near to a line's, at its pitch, is the line's, in seconds.</summary>
    private const double Same = 0.06;

    /// <summary>Lines less sure than this take no note away.</summary>
    private const double Sure = 0.5;

    /// <param name="chords">The song's bars with their chords and shapes.</param>
    public static ILookup<int, Strike> Of(Hearing hearing, BeatAxis axis, ImmutableArray<Bar> chords)
    {
        var lines = hearing.Lines.Found.Where(l => l.Kind.Confidence >= Sure).SelectMany(l => l.Notes).ToLookup(n => n.Midi, n => n.Onset.Value);
        ImmutableArray<HeardNote> notes = [.. hearing.Notes.Where(n => n.Place is not null && !lines[n.Midi].Any(t => Math.Abs(t - n.Onset.Value) < Same))];
        var held = new HeldPlaces(hearing.Tuning.Best, axis, chords);
        return (axis.Bars.IsEmpty ? [] : StruckNotes.Of(notes)).Select(s => At(axis, s.Time, [.. s.Notes.Select(i => notes[i])])).GroupBy(s => s.Bar)
            .SelectMany(held.Of).ToLookup(s => s.Bar);
    }

    private static Strike At(BeatAxis axis, double time, ImmutableArray<HeardNote> notes)
    {
        var mean = notes.Length < 3 ? notes.Min(n => n.Onset.Value) : time;
        var place = axis.PlaceOf(mean);
        return new(mean, place, BarAt(axis, place), notes);
    }

    /// <summary>A moment just before a bar line belongs to the bar behind it only where a grid says so; here it is where it falls.</summary>
    public static int BarAt(BeatAxis axis, double place)
    {
        var bar = axis.Bars.Length - 1;
        while (bar > 0 && axis.Bars[bar].FirstBeat > place)
            bar--;
        return bar;
    }
}
