using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>
/// A bar of 3/8 among compound bars is half a bar of 6/8: one dotted beat (common practice, as eighths stay eighths). A song in 3/8 may be felt
/// in three.
/// </summary>
public class DottedBarTests
{
    private const string Lilt =
        "title T\ntuning E2 A2 D3 G3 B3 E4\nmeter 6/8\ntempo 60\nsection A\nchords | Am | C |\nmeter 3/8\nchords | D |\nmeter 6/8\nchords | Am |\n";

    // At dotted-quarter 60 bars of two beats take 2 s, the bar of one beat 1 s.
    [Fact]
    public void ItLastsOneDottedBeat()
    {
        var clock = new SongClock(Song(Lilt));
        Assert.Equal([0, 2, 4, 5, 7], Enumerable.Range(1, 5).Select(bar => clock.TimeOf(bar).Value));
    }

    [Theory]
    [InlineData(Counting.Beats, "1 la li")]
    [InlineData(Counting.Divisions, "1 2 3")]
    public void ItIsCountedAsOneBeat(Counting counting, string said) =>
        Assert.Equal(said, string.Join(' ', BarPlace.Grid(Song(Lilt).Bars.ElementAt(2).Meter, 3).Select(p => p.Said(counting))));

    [Fact]
    public void APatternIsCutForIt()
    {
        var read = SongText.Parse(Lilt + "strum throughout | d . u d . u |\n", "t");
        Assert.Empty(read.Diagnostics.Where(d => d.Code == DiagnosticCode.PatternMeter));
        Assert.Equal([(Stroke.Down, Beats.Zero), (Stroke.Up, Beats.Fraction(2, 3))], read.Song!.Bars.ElementAt(2).Strums.Select(s => (s.Value, s.Start)));
    }

    [Fact]
    public void ItIsWrittenAsItWasRead()
    {
        var song = Song(Lilt);
        var written = SongText.Write(song);
        Assert.Contains(" 3/8 from 3\n", written);
        Assert.Equal(song.Bars.Select(b => b.Meter), Song(written).Bars.Select(b => b.Meter));
    }

    [Theory]
    [InlineData("3/8", 3)]
    [InlineData("4/4", 3)]
    [InlineData("9/8", 1)]
    public void ElsewhereItHasThreeBeats(string song, int beats) =>
        Assert.Equal(beats, Song($"title T\ntuning E2 A2 D3 G3 B3 E4\nmeter {song}\nsection A\nmeter 3/8\nchords | Am |\n").Bars.Single().Meter.BeatsPerBar);

    [Fact]
    public void ABarOfOneBeatIsAsLongAsTheOthersBeats() =>
        Assert.Equal(Beats.Whole(1), Meter.Of(3, 8).Among(Meter.Of(12, 8)).BarLength);

    private static Song Song(string text) => SongText.Parse(text, "lilt.hark").Song!;
}
