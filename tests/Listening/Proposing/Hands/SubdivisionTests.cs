using System.Collections.Immutable;
using Harkbook.Listening.Proposing;
using Harkbook.Listening.Proposing.Hands;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing.Hands;

public class SubdivisionTests
{
    // By hand: 2.45 lies .05 before two and a half; 2.9 lies .1 before beat three and .233 behind two and two thirds.
    [Theory]
    [InlineData("eighths", 2.45, 5, 2, -0.05)]
    [InlineData("eighths", 2.9, 3, 1, -0.1)]
    [InlineData("swung eighths", 2.9, 3, 1, -0.1)]
    [InlineData("swung eighths", 2.6, 8, 3, -0.0667)]
    [InlineData("sixteenths", 2.2, 9, 4, -0.05)]
    public void AMomentGoesToTheNearestPlace(string name, double moment, int numerator, int denominator, double off)
    {
        var (at, far) = Subdivision.Simple.Single(s => s.Name == name).Nearest(moment);
        Assert.Equal(Beats.Fraction(numerator, denominator), at);
        Assert.Equal(off, far, 3);
    }

    /// <summary>Strikes just where a grid has its places, eight bars of 4/4 at 120: the plainest grid that holds them all is read.</summary>
    [Theory]
    [InlineData("eighths", new[] { 0, 0.5 })]
    [InlineData("swung eighths", new[] { 0, 0.667 })]
    [InlineData("triplets", new[] { 0, 0.333, 0.667 })]
    [InlineData("sixteenths", new[] { 0, 0.25, 0.5, 0.75 })]
    public void TheGridIsThePlainestThatHoldsTheStrikes(string name, double[] places)
    {
        var beats = HandMade.Beats(HandMade.Every(0.5, 32), 1, 2, 3, 4);
        var axis = BeatAxis.Of(beats, Music.Theory.Meter.CommonTime, 120);
        var note = new HeardNote(64, Seconds.FromSeconds(1), Seconds.FromSeconds(1.2), 0.9, 0.8, new(5, 0, 0.9));
        var strikes = Enumerable.Range(0, 32).SelectMany(beat => places.Select(p => new Strike(axis.TimeOf(beat + p), beat + p, beat / 4, [note])))
            .ToLookup(s => s.Bar);
        Assert.All(new PlayedBars(PlayingModel.Shipped).Read(axis, strikes), bar => Assert.Equal((name, PlayedAs.Picked), (bar.Grid.Name, bar.Playing)));
    }
}
