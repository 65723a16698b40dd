using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs;

/// <summary>Moves everything that sounds by one interval.</summary>
internal static class SongTransposition
{
    public static Song Of(Song song, Interval by) => song with
    {
        Tuning = song.Tuning with { Value = Tuning.Of(song.Tuning.Value.Strings.Select(s => s + by)) },
        Key = song.Key with { Value = Moved(song.Key.Value, by) },
        Harp = song.Harp is { } harp ? harp with { Value = harp.Value with { Key = harp.Value.Key + by } } : null,
        Shapes = [.. song.Shapes.Select(s => s with { Name = Moved(s.Name, by) })],
        Sections = [.. song.Sections.Select(s => s with { Keys = [.. s.Keys.Select(k => k with { Key = Moved(k.Key, by) })], Bars = [.. s.Bars.Select(b => Moved(b, by))] })],
    };

    private static Key Moved(Key key, Interval by) => key with { Tonic = key.Tonic + by };

    private static Bar Moved(Bar bar, Interval by) => bar with
    {
        Chords = [.. bar.Chords.Select(c => c with { Value = c.Value with { Chord = c.Value.Chord.Transposed(by), Name = Moved(c.Value.Name, by) } })],
    };

    /// <summary>The name keeps its label.</summary>
    private static string Moved(string name, Interval by)
    {
        var label = name.IndexOf('@');
        var symbol = label < 0 ? name : name[..label];
        return ChordSymbol.Write(ChordSymbol.Read(symbol).Transposed(by)) + (label < 0 ? "" : name[label..]);
    }
}
