using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening.Reading;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Where it isn't sure how the guitar is tuned: the tunings that it might be, how the chords' shapes look in each, and what to listen for to decide.
/// </summary>
public static class TuningQuestion
{
    private const int Most = 3, Shapes = 4;

    /// <summary>Lines for a person, without a comment's sign; none where the tuning is told or likelier than all others together.</summary>
    public static ImmutableArray<string> Of(Hearing hearing, Song song)
    {
        var candidates = hearing.Tuning.Candidates;
        if (hearing.Claims.Tuning is not null || hearing.Tuning.Confidence >= 0.5 || candidates.Length < 2 || hearing.Notes.IsEmpty)
            return [];
        var lines = ImmutableArray.CreateBuilder<string>();
        lines.Add("It isn't sure how the guitar is tuned. It might be");
        lines.AddRange(candidates.Take(Most).Select(c => Line(hearing, c)));
        lines.AddRange(candidates.Skip(1).Take(Most - 1).Select(c => Asked(hearing, song, candidates[0].Value, c.Value)).OfType<string>());
        lines.Add($"Then write it in the song file without its ~heard, or say it: start … --again --tuning \"{candidates[0].Value.Tuning}\" --capo "
            + candidates[0].Value.Capo.Fret);
        return lines.ToImmutable();
    }

    private static string Line(Hearing hearing, Candidate<HeardTuning> candidate)
    {
        var told = Reader.Again(hearing, hearing.Claims with { Tuning = candidate.Value.Tuning, Capo = candidate.Value.Capo });
        var shapes = SongProposer.ShapesOf(told).Take(Shapes).Select(s => $"{ChordSymbol.Write(s.Chord)} {s.Shape.WithoutFingers()}");
        return string.Create(CultureInfo.InvariantCulture, $"  {Name(candidate.Value)} ({100 * candidate.Confidence:0}%): {string.Join(", ", shapes)}");
    }

    private static string Name(HeardTuning guitar) => $"{guitar.Tuning}{(guitar.Capo.Fret == 0 ? "" : $", capo {guitar.Capo.Fret}")}";

    /// <summary>A note that only one of two can sound, else a string that sounds open in one and not in the other.</summary>
    private static string? Asked(Hearing hearing, Song song, HeardTuning first, HeardTuning other) =>
        Only(hearing, song, first, other) ?? Only(hearing, song, other, first) ?? Open(hearing, song, first, other);

    private static string? Only(Hearing hearing, Song song, HeardTuning has, HeardTuning lacks)
    {
        var (low, lower) = (Lowest(lacks), Lowest(has));
        var below = hearing.Notes.Where(n => n.Midi < low && n.Midi >= lower).ToArray();
        return low <= lower ? null
            : below.Length > 0 ? $"Listen: is the lowest note of {Place(song, below.MaxBy(n => n.Confidence)!)} a "
                + $"{Spelled(song, below.MaxBy(n => n.Confidence)!.Midi)}? Then it isn't {Name(lacks)}."
            : $"Listen: does anything sound below {Spelled(song, low)}? Then it isn't {Name(lacks)}.";
    }

    private static string? Open(Hearing hearing, Song song, HeardTuning first, HeardTuning other)
    {
        var (neck, rival) = (new Fretboard(first.Tuning, first.Capo), new Fretboard(other.Tuning, other.Capo));
        var open = hearing.Notes.Where(n => n.Place is { Fret: 0 } place && place.StringIndex < other.Tuning.Count
            && rival.MidiAt(place.StringIndex, 0) != neck.MidiAt(place.StringIndex, 0)).ToArray();
        return open.Length == 0 ? null : open.MaxBy(n => n.Confidence) is { } note
            ? $"Listen: does {Spelled(song, note.Midi)} ring as an open string in {Place(song, note)}? In {Name(other)} string "
                + $"{first.Tuning.Count - note.Place!.StringIndex} is {Spelled(song, rival.MidiAt(note.Place.StringIndex, 0))}." : null;
    }

    private static int Lowest(HeardTuning guitar) => Enumerable.Range(0, guitar.Tuning.Count).Min(s => new Fretboard(guitar.Tuning, guitar.Capo).MidiAt(s, 0));

    private static string Spelled(Song song, int midi) => Pitch.FromMidi(midi, song.Key.Value.Centre).ToString();

    private static string Place(Song song, HeardNote note) => song.Bars.Any()
        ? $"bar {new SongClock(song).PlaceOf(note.Onset).BarNumber} ({Time(note)})" : Time(note);

    private static string Time(HeardNote note) => TimeText.Write(Seconds.FromSeconds(Math.Round(note.Onset.Value, 2)));
}
