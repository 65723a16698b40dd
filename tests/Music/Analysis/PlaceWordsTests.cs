using Harkbook.Music.Analysis;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Analysis;

public class PlaceWordsTests
{
    private static readonly Song Song = SongText.Parse(
        """
        title Out and Home
        section Verse
        chords | C | F | G | C |
        section Chorus
        chords | F . G . | C | Am . . D | G |
        """, "out.hark").Song!;

    [Fact]
    public void BarsInARowAreJoinedAndSectionsNamed() =>
        Assert.Equal("Verse, bars 2 to 4; Chorus, bars 5, 6", PlaceWords.Of(Song, [At(2), At(3), At(4), At(5), At(6)]));

    [Fact]
    public void APlaceWithinABarSaysItsBeat() =>
        Assert.Equal("Verse, bar 1; Chorus, bar 5 from beat 3, bar 7 from beat 4", PlaceWords.Of(Song, [At(1), At(5, 2), At(7, 3)]));

    [Fact]
    public void BarsAndBeatsStandInTheSongsOrder() =>
        Assert.Equal("Chorus, bar 5 from beat 3, bars 6, 7, bar 8 from beat 2", PlaceWords.Of(Song, [At(7), At(6), At(8, 1), At(5, 2)]));

    [Fact]
    public void ManyPlacesAreNamedByTheirBars() =>
        Assert.Equal("Verse, bars 1 to 3; Chorus, bars 5, 7", PlaceWords.Of(Song, [At(1, 1), At(2, 1), At(3), At(5, 2), At(7, 3)]));

    [Fact]
    public void ABarIsNotNamedTwice() =>
        Assert.Equal("Chorus, bar 5", PlaceWords.Of(Song, [At(5), At(5, 2)]));

    private static SongPlace At(int bar, int beat = 0) => new(bar, Beats.Whole(beat), Beats.Whole(1));
}
