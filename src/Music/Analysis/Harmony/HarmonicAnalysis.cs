using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Harmony;

/// <summary>Every chord of a song read in its local key, between its neighbours. What the song says stays as it says it.</summary>
/// <param name="Chords">One for each chord use, in playing order; a chord held over the bar line comes once a bar.</param>
/// <param name="Tonicizations">Where other chords are home for a moment, in playing order.</param>
/// <param name="Cadences">How sections end, in playing order; a section that ends otherwise has none.</param>
public sealed record HarmonicAnalysis(ImmutableArray<PlacedChord> Chords, ImmutableArray<Tonicization> Tonicizations, ImmutableArray<Cadence> Cadences)
{
    public static HarmonicAnalysis Of(Song song)
    {
        var chords = SongWalk.Read(song);
        return new(chords, [.. Tonicization.Find(chords)], [.. CadenceFinder.Find(song, chords)]);
    }

    /// <summary>The chords that sound.</summary>
    public IEnumerable<PlacedChord> Sounding => Chords.Where(c => c.Reading.Numeral is not null);

    public bool Equals(HarmonicAnalysis? other) =>
        other is not null && Chords.AsSpan().SequenceEqual(other.Chords.AsSpan()) && Tonicizations.AsSpan().SequenceEqual(other.Tonicizations.AsSpan())
        && Cadences.AsSpan().SequenceEqual(other.Cadences.AsSpan());

    public override int GetHashCode() => Chords.Length;
}
