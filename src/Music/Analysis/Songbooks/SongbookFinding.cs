using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Songbooks;

/// <summary>What a songbook is inconsistent in.</summary>
public enum SongbookFindingKind
{
    /// <summary>The same shape in the same tuning is called by two chord names.</summary>
    ShapeNamedTwice,

    /// <summary>The same chord is written with two symbols.</summary>
    ChordSpeltTwice,

    /// <summary>The same sounding strings are written as two tunings, or as two tunings with capos.</summary>
    TuningWrittenTwice,

    /// <summary>Sections that are the same, or of the same kind, have two names.</summary>
    SectionNamedTwice,

    /// <summary>Songs of one album have different reference pitches.</summary>
    PitchDiffers,
}

/// <summary>Something that songs of one book say differently. It may be meant so: a finding asks, it doesn't accuse.</summary>
/// <param name="Sentence">What differs and in which songs.</param>
/// <param name="Songs">The songs that it is about, in the book's order.</param>
public sealed record SongbookFinding(SongbookFindingKind Kind, string Sentence, ImmutableArray<Song> Songs);
