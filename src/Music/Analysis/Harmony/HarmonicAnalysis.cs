using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony;

/// <summary>Every chord of a song read in its local key, between its neighbours. What the song says stays as it says it.</summary>
/// <param name="Chords">One for each chord use, in playing order; a chord held over the bar line comes once a bar.</param>
public sealed record HarmonicAnalysis(ImmutableArray<PlacedChord> Chords)
{
    public static HarmonicAnalysis Of(Song song) => new(SongWalk.Read(song));

    public bool Equals(HarmonicAnalysis? other) => other is not null && Chords.AsSpan().SequenceEqual(other.Chords.AsSpan());

    public override int GetHashCode() => Chords.Length;
}
