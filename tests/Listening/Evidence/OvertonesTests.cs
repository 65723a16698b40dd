using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Tests.Evidence;

/// <summary>Partial n of a string lies 12·log2 n semitones above its first, by the definition of equal temperament.</summary>
public class OvertonesTests
{
    [Fact]
    public void OvertonesLieWherePartialsDo() =>
        Assert.Equal(Enumerable.Range(2, 7).Select(n => (int)Math.Round(12 * Math.Log2(n))), Overtones.Semitones);

    /// <summary>Half of what is heard is explained by one pitch of two alike; a pitch that isn't heard counts against the shape. Arithmetic by hand.</summary>
    [Fact]
    public void WhatIsLeftOutAndWhatIsAddedCountsAgainstAShape()
    {
        double[] heard = [1, 0, 1, 0];
        Assert.Equal(1, PitchFit.Of(heard, new HashSet<int> { 0, 2 }));
        Assert.Equal(1 / 2.0, PitchFit.Of(heard, new HashSet<int> { 0 }));
        Assert.Equal(2 / 3.0, PitchFit.Of(heard, new HashSet<int> { 0, 2, 3 }), 12);
        Assert.Equal(0, PitchFit.Of(heard, new HashSet<int> { 1 }));
    }
}
