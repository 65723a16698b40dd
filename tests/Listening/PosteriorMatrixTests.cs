using CsCheck;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Tests;

public class PosteriorMatrixTests
{
    /// <summary>Steps are 16/253 in log-odds apart, and the logistic function is nowhere steeper than 1/4: half a step is at most 1/126 of 1.</summary>
    [Fact]
    public void AChanceIsKeptWithinHalfAStep() => Gen.Float[0, 1].Sample(value =>
        Math.Abs(new PosteriorMatrix(2, 3) { [1, 2] = value }[1, 2] - value) <= 16.0 / 253 / 4 / 2 + 1e-6);

    /// <summary>Within 3.5% (half a step in log-odds) of the doubt that is left, down to a chance of one in a thousand.</summary>
    [Fact]
    public void WhatIsNearlySureKeepsItsDoubt() => Gen.Double[0.001, 0.1].Sample(doubt =>
        Math.Abs(1 - new PosteriorMatrix(1, 1) { [0, 0] = (float)(1 - doubt) }[0, 0] - doubt) <= 0.035 * doubt);

    [Fact]
    public void NothingAndCertaintyAreKeptExactly()
    {
        var chances = PosteriorMatrix.Of(new float[,] { { 0, 1 } });
        Assert.Equal((0f, 1f, 1, 2), (chances[0, 0], chances[0, 1], chances.Frames, chances.Pitches));
    }

    [Fact]
    public void WhatIsKeptIsKeptAgainUnchanged() => Gen.Float[0, 1].Sample(value =>
    {
        var once = new PosteriorMatrix(1, 1) { [0, 0] = value }[0, 0];
        return new PosteriorMatrix(1, 1) { [0, 0] = once }[0, 0] == once;
    });

    [Fact]
    public void WhatIsNoChanceBecomesTheNearest()
    {
        var chances = new PosteriorMatrix(1, 2);
        chances.Fill(0, [-0.5f, 1.5f]);
        Assert.Equal((0f, 1f), (chances[0, 0], chances[0, 1]));
    }
}
