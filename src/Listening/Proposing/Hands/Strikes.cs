using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What the guitar strikes: its heard notes, those that start together as one. What a voice or a second instrument sounds is left out.</summary>
internal static class Strikes
{
    /// <summary>A note that starts so near to a line's, at its pitch, is the line's, in seconds.</summary>
    private const double Same = 0.06;

    /// <summary>What sounds so soon after a note's start says who plays it.</summary>
    private static readonly Seconds Early = Seconds.FromSeconds(0.25);

    /// <summary>Lines less sure than this take no note away.</summary>
    private const double Sure = 0.5;

    /// <param name="chords">The song's bars with their chords and shapes.</param>
    public static ILookup<int, Strike> Of(Hearing hearing, BeatAxis axis, ImmutableArray<Bar> chords)
    {
        var lines = hearing.Lines.Found.Where(l => l.Kind.Confidence >= Sure).SelectMany(l => l.Notes).ToLookup(n => n.Midi, n => n.Onset.Value);
        ImmutableArray<HeardNote> notes = [.. hearing.Notes.Where(n => n.Place is not null && !lines[n.Midi].Any(t => Math.Abs(t - n.Onset.Value) < Same)
            && Unstruck(hearing.Evidence, n) < Sure)];
        var held = new HeldPlaces(hearing.Tuning.Best, axis, chords);
        return (axis.Bars.IsEmpty ? [] : StruckNotes.Of(notes)).Select(s => At(axis, s.Time, [.. s.Notes.Select(i => notes[i])])).GroupBy(s => s.Bar)
            .SelectMany(held.Of).ToLookup(s => s.Bar);
    }

    /// <summary>How surely something that isn't struck sounds a note's pitch after its start (0–1).</summary>
    private static double Unstruck(SoundEvidence evidence, HeardNote note)
    {
        var (first, last) = (evidence.Notes.FrameAt(note.Onset) + 1, Math.Min(evidence.Notes.FrameAt(note.End), evidence.Notes.FrameAt(note.Onset + Early)));
        var frames = Enumerable.Range(first, Math.Max(0, last - first)).Where(f => f < evidence.Lines.Frames).ToArray();
        return frames.Length == 0 ? 0 : frames.Average(f => evidence.Lines.Find(f, note.Midi - LineNetwork.LowestMidi)?.Chance ?? 0);
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
