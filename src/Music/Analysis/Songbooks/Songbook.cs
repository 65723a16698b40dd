using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Songbooks;

/// <summary>Many songs looked at together: which shapes, chords, strums and borrowed chords they share, and where they contradict one another.</summary>
/// <param name="Songs">In the order in which they stand in the book.</param>
public sealed record Songbook(ImmutableArray<Song> Songs)
{
    /// <summary>Shapes of the hand, the most used first.</summary>
    public ImmutableArray<Grip> Grips { get; } = Grip.In(Songs.SelectMany(ShapeUse.Of));

    /// <summary>Bars of strokes, those of most songs first.</summary>
    public ImmutableArray<StrumPattern> Strums { get; } = StrumPattern.In(Songs);

    /// <summary>Chords that a song borrows from another mode on its home note.</summary>
    public ImmutableArray<BorrowedUse> Borrowed { get; } = BorrowedUse.In(Songs);

    /// <summary>What the songs write in two ways, or say differently where one would expect the same.</summary>
    public ImmutableArray<SongbookFinding> Findings { get; } = [.. SongbookFindings.In(Songs)];

    public static Songbook Of(params IEnumerable<Song> songs) => new([.. songs]);

    /// <summary>Uses of a shape of the hand, in any tuning.</summary>
    public IEnumerable<ShapeUse> WithShape(Shape shape) => Uses.Where(u => u.Shape == shape.WithoutFingers());

    /// <summary>Uses of a chord, by whatever shape, that sound it or are called so by the hand; spelling counts by sound, so Gb finds F#.</summary>
    public IEnumerable<ShapeUse> WithChord(Chord chord) => Uses.Where(u => SameSound(u.Chord, chord) || SameSound(u.HandsChord, chord));

    /// <summary>Uses of other shapes or tunings that sound the very same pitches as one use does.</summary>
    public IEnumerable<ShapeUse> SoundingAs(ShapeUse use) =>
        Uses.Where(u => u.Sound.SequenceEqual(use.Sound) && !(u.Shape == use.Shape && ReferenceEquals(u.Song, use.Song)));

    private IEnumerable<ShapeUse> Uses => Grips.SelectMany(g => g.Uses);

    public bool Equals(Songbook? other) => other is not null && Songs.AsSpan().SequenceEqual(other.Songs.AsSpan());

    public override int GetHashCode() => Songs.Length;

    private static bool SameSound(Chord a, Chord b) =>
        a.IsNone == b.IsNone && a.Root.PitchClass == b.Root.PitchClass && a.Bass.PitchClass == b.Bass.PitchClass
        && a.Quality.PitchClasses.AsSpan().SequenceEqual(b.Quality.PitchClasses.AsSpan());
}
