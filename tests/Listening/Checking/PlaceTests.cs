using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Checking;

public class PlaceTests
{
    /// <summary>At 60 beats a minute a beat is a second, so that times are places by arithmetic: bar 1 lies at 0, bar 2 at 4 s.</summary>
    [Theory]
    [InlineData(1.57, 1, 2.5)]
    [InlineData(0.31, 1, 1.3333)]
    [InlineData(2.02, 1, 3)]
    [InlineData(3.97, 2, 1)]
    public void WhatWasHeardIsNamedByTheNearestPlaceThatPlayersCount(double time, int bar, double beat)
    {
        var song = SongText.Parse("title T\ntempo 60\nsection A\nchords | C | G |\n", "t").Song!;
        var place = Place.Heard(Seconds.FromSeconds(time), new(song));
        Assert.Equal((time, bar), (place.Time.Value, place.Bar!.Value));
        Assert.Equal(beat, place.Beat!.Value, 3);
    }
}
