using CsCheck;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>Times by hand: at 120 a minute a beat lasts half a second.</summary>
public class ClockTests
{
    [Fact]
    public void WithoutAnchorsTheTempoCountsFromZero()
    {
        var clock = Clock("", "");
        Assert.Equal(0, clock.TimeOf(1).Value, 9);
        Assert.Equal(2.5, clock.TimeOf(2, Beats.Whole(1)).Value, 9);
        Assert.Equal(16, clock.TimeOf(9).Value, 9);
    }

    [Fact]
    public void BetweenAnchorsTimeRunsStraight()
    {
        var clock = Clock("anchors 1 = 10 3 = 16", "");
        Assert.Equal(13, clock.TimeOf(2).Value, 9);
        Assert.Equal(13.75, clock.TimeOf(2, Beats.Whole(1)).Value, 9);
    }

    [Fact]
    public void OutsideTheAnchorsTheTempoCounts()
    {
        var clock = Clock("anchors 2 = 10", "anchors 1 = 20");
        Assert.Equal(8, clock.TimeOf(1).Value, 9);
        Assert.Equal(22, clock.TimeOf(6).Value, 9);
        Assert.Equal((1, -2.0), Rounded(clock.PlaceOf(Seconds.FromSeconds(7))));
        Assert.Equal((8, 8.0), Rounded(clock.PlaceOf(Seconds.FromSeconds(30))));
    }

    [Fact]
    public void AnAnchorMayMarkASectionsEnd()
    {
        var clock = Clock("anchors 1 = 0 5 = 4", "anchors 1 = 4");
        Assert.Equal(2, clock.TimeOf(3).Value, 9);
        Assert.Equal(6, clock.TimeOf(6).Value, 9);
    }

    [Fact]
    public void ATimeAndItsPlaceAgree() => Gen.Select(SongGen.Songs, Gen.Double[-5, 60]).Sample((song, time) =>
    {
        if (!song.Bars.Any())
            return;
        var clock = new SongClock(song);
        var (bar, beat) = clock.PlaceOf(Seconds.FromSeconds(time));
        var (whole, part) = ((int)Math.Floor(beat), beat - Math.Floor(beat));
        var lower = clock.TimeOf(bar, Beats.Whole(whole)).Value;
        var upper = clock.TimeOf(bar, Beats.Whole(whole + 1)).Value;
        Assert.InRange(time, lower - 1e-6, upper + 1e-6);
        Assert.InRange(part, 0, 1);
    }, iter: 300);

    [Fact]
    public void TimesRiseWithTheBars() => SongGen.Songs.Sample(song =>
    {
        var clock = new SongClock(song);
        var times = Enumerable.Range(1, song.Bars.Count() + 1).Select(bar => clock.TimeOf(bar).Value).ToList();
        Assert.All(times.Zip(times.Skip(1)), p => Assert.True(p.First < p.Second));
    }, iter: 300);

    [Fact]
    public void AnchorsThatDoNotRiseAreRefused()
    {
        var song = SongText.Parse("title T\nsection A\nanchors 1 = 1 2 = 2\nchords | D | D |", "t").Song!;
        var wrong = song with { Sections = [song.Sections[0] with { Anchors = [new(1, Seconds.FromSeconds(5)), new(2, Seconds.FromSeconds(4))] }] };
        Assert.Throws<ArgumentException>(() => new SongClock(wrong));
    }

    private static SongClock Clock(string first, string second) => new(SongText.Parse(
        $"title T\ntempo 120\nsection A\n{first}\nchords | D | D | D | D |\nsection B\n{second}\nchords | D | D | D | D |", "t").Song!);

    private static (int, double) Rounded((int Bar, double Beat) place) => (place.Bar, Math.Round(place.Beat, 6));
}
