using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs;

/// <summary>Moves a song by one interval.</summary>
internal static class SongTransposition
{
    /// <summary>Everything that sounds; frets and holes stay as they are.</summary>
    public static Song Of(Song song, Interval by) => NamesOf(song, by) with
    {
        Tuning = song.Tuning with { Value = Tuning.Of(song.Tuning.Value.Strings.Select(s => s + by)) },
        Harp = HarpOf(song, by),
    };

    /// <summary>The names of chords, shapes, keys and the tune's notes only.</summary>
    public static Song NamesOf(Song song, Interval by) => song with
    {
        Key = song.Key with { Value = Moved(song.Key.Value, by) },
        Shapes = [.. song.Shapes.Select(s => s with { Name = WrittenName.Moved(s.Name, by) })],
        Sections = [.. song.Sections.Select(s => s with { Keys = [.. s.Keys.Select(k => k with { Key = Moved(k.Key, by) })],
            Bars = [.. s.Bars.Select(b => Moved(b, by))] })],
    };

    public static Fact<HarpReference>? HarpOf(Song song, Interval by) =>
        song.Harp is { } harp ? harp with { Value = harp.Value with { Key = harp.Value.Key + by } } : null;

    private static Key Moved(Key key, Interval by) => key with { Tonic = key.Tonic + by };

    private static Bar Moved(Bar bar, Interval by) => bar with
    {
        Chords = [.. bar.Chords.Select(c =>
            c with { Value = c.Value with { Chord = c.Value.Chord.Transposed(by), Name = WrittenName.Moved(c.Value.Name, by) } })],
        Tune = [.. bar.Tune.Select(t => t with { Value = t.Value with { Pitch = t.Value.Pitch + by } })],
    };
}
