using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Analysis.Songbooks;

/// <summary>A shape under a name in one song.</summary>
/// <param name="Name">By what sounds, label and all.</param>
/// <param name="Bars">Numbers of the bars that it is in, rising; empty for a shape that the song names and never uses.</param>
public sealed record ShapeUse(Song Song, string Name, Shape Shape, Chord Chord, ImmutableArray<int> Bars)
{
    /// <summary>The chord symbol: the name without its label.</summary>
    public string Symbol => NamedShape.SymbolOf(Name);

    /// <summary>The chord symbol that the song's file writes.</summary>
    public string Own => CapoNames.Of(Song)?.First(Symbol) ?? Symbol;

    /// <summary>The chord as the hand reads it, without the capo; what sounds where there is none.</summary>
    public Chord HandsChord => CapoNames.Of(Song) is { } names ? Chord.Transposed(-names.Raise) : Chord;

    /// <summary>MIDI numbers that sound, each once, rising: what two shapes must share to be one sound.</summary>
    public ImmutableArray<int> Sound => [.. Shape.Pitches(Song.Tuning.Value, Song.Capo.Value).Select(p => p.Midi).Distinct().Order()];

    /// <summary>Every shape of a song with where it is used.</summary>
    public static IEnumerable<ShapeUse> Of(Song song) =>
        from named in song.Shapes
        where named.Shape.Frets.Length == song.Tuning.Value.Count
        let chord = ChordSymbol.TryRead(named.Symbol, out var read) ? read : Chord.None
        select new ShapeUse(song, named.Name, named.Shape.WithoutFingers(), chord,
            [.. song.Bars.Where(b => b.Chords.Any(c => c.Value.Name == named.Name)).Select(b => b.Number)]);
}
