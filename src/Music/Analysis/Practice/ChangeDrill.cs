using Harkbook.Music.Analysis.Hands;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Practice;

/// <summary>A change from one chord to another as two bars to practise: a stroke on every felt beat, a bar a chord.</summary>
/// <param name="Song">The two bars, with the song's own shapes, meter and tempo.</param>
/// <param name="FingersKept">Fingers that can stay where they are; empty where none can.</param>
public sealed record ChangeDrill(Song Song, IReadOnlyList<int> FingersKept)
{
    /// <summary>The drill of two chords of a song, named as its bars name them.</summary>
    public static ChangeDrill Of(Song song, ChordUse from, ChordUse to)
    {
        var meter = song.Meter.Value;
        var section = new Section($"{from.Name} to {to.Name}", [], [Bar(1, from, meter), Bar(2, to, meter)]);
        return new(song with { Sections = [section] }, ShapeChange.Between(from, to, song.Capo.Value)?.FingersKept ?? []);
    }

    /// <summary>The chords that a song's bars use, each name once, in order.</summary>
    public static IReadOnlyList<ChordUse> Chords(Song song) =>
        [.. song.Bars.SelectMany(b => b.Chords).Select(c => c.Value).Where(c => !c.Chord.IsNone).DistinctBy(c => c.Name)];

    /// <summary>The change of shape that moves the strings most; null where no shape changes.</summary>
    public static (ChordUse From, ChordUse To)? Widest(Song song) =>
        ShapeChanges.Of(song).MaxBy(c => c.Change.TotalMotion) is { } made ? (made.Change.From, made.Change.To) : null;

    private static Bar Bar(int number, ChordUse chord, Theory.Meter meter) => new()
    {
        Number = number,
        Meter = meter,
        Chords = [new(Beats.Zero, meter.BarLength, chord, Standing.Decided)],
        Strums = [.. Enumerable.Range(0, meter.BeatsPerBar).Select(beat =>
            new Claim<Stroke>(Beats.Whole(beat), Beats.Whole(1), Stroke.Down, Standing.Decided))],
    };
}
