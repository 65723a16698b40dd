using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// On which strings and frets notes were played while a chord sounded, over all its spans in the song. A place that sounds a third as often as the
/// most frequent counts in full: strings of one shape are struck about alike, notes in passing seldom.
/// </summary>
internal sealed class PlayedPlaces
{
    private const double Full = 0.35;

    /// <summary>What an unheard string takes when another sounds its very pitch, or one of which that is an overtone: listening loses those.</summary>
    private const double Unison = 0.1, Masked = 0.2;

    private readonly Dictionary<(int StringIndex, int Fret), double> share = [];
    private readonly double total;

    private PlayedPlaces(IEnumerable<HeardNote> notes)
    {
        foreach (var note in notes)
        {
            var place = (note.Place!.StringIndex, note.Place.Fret);
            share[place] = share.GetValueOrDefault(place) + note.Confidence;
        }
        var most = share.Values.DefaultIfEmpty(1).Max();
        foreach (var place in share.Keys)
            share[place] = Math.Min(1, share[place] / (Full * most));
        total = share.Values.Sum();
    }

    /// <summary>Chords during which no placed note starts are left out.</summary>
    public static Dictionary<Chord, PlayedPlaces> OfChords(Hearing hearing)
    {
        var placed = hearing.Notes.Where(n => n.Place is not null).ToArray();
        return hearing.Chords.Where(c => !c.Chord.Best.IsNone).GroupBy(c => c.Chord.Best)
            .Select(g => (Chord: g.Key, Notes: g.SelectMany(c => placed.Where(n => n.Onset >= c.Start - Early && n.Onset < c.End - Early)).ToArray()))
            .Where(c => c.Notes.Length > 0)
            .ToDictionary(c => c.Chord, c => new PlayedPlaces(c.Notes));
    }

    private static Units.Seconds Early => Units.Seconds.FromMilliseconds(40);

    /// <summary>On each string the fret that sounded most, where it sounded enough to be part of the shape.</summary>
    public Shape Shape(int strings) => Music.Instruments.Shapes.Shape.Of([.. Enumerable.Range(0, strings).Select(s =>
        share.Where(p => p.Key.StringIndex == s && p.Value >= 0.5).OrderByDescending(p => p.Value).Select(p => (int?)p.Key.Fret).FirstOrDefault())]);

    /// <summary>How well a shape explains where notes were played, 0 to 1.</summary>
    public double Match(Shape shape, ImmutableArray<Pitch?> pitches)
    {
        var (explained, unheard) = (0.0, 0.0);
        for (var s = 0; s < shape.Frets.Length; s++)
        {
            if (shape.Frets[s] is not { } fret)
                continue;
            var heard = share.GetValueOrDefault((s, fret));
            explained += heard;
            unheard += (1 - heard) * (IsAbove(pitches, s, 0) ? Unison : Overtones.Strong.Any(o => IsAbove(pitches, s, o)) ? Masked : 1);
        }
        return explained / (total + unheard);
    }

    private static bool IsAbove(ImmutableArray<Pitch?> pitches, int s, int semitones) =>
        Enumerable.Range(0, pitches.Length).Any(other => other != s && pitches[s]?.Midi - pitches[other]?.Midi == semitones);
}
