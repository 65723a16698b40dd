using CsCheck;

namespace Harkbook.Listening.Tests;

public class PosteriorMatrixTests
{
    [Fact]
    public void AChanceIsKeptWithinHalfAStep() => Gen.Float[0, 1].Sample(value =>
    {
        var chances = new PosteriorMatrix(2, 3) { [1, 2] = value };
        return Math.Abs(chances[1, 2] - value) <= 0.5f / 65_535 + 1e-7f;
    });

    [Fact]
    public void NothingAndCertaintyAreKeptExactly()
    {
        var chances = PosteriorMatrix.Of(new float[,] { { 0, 1 } });
        Assert.Equal((0f, 1f, 1, 2), (chances[0, 0], chances[0, 1], chances.Frames, chances.Pitches));
    }

    [Fact]
    public void WhatIsNoChanceBecomesTheNearest()
    {
        var chances = new PosteriorMatrix(1, 2);
        chances.Fill(0, [-0.5f, 1.5f]);
        Assert.Equal((0f, 1f), (chances[0, 0], chances[0, 1]));
    }
}
