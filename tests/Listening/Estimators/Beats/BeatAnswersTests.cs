using CsCheck;
using Harkbook.Listening.Estimators;
using Harkbook.Listening.Estimators.Beats;

namespace Harkbook.Listening.Tests.Estimators.Beats;

public class BeatAnswersTests
{
    /// <summary>The tempo that is told first is that of the beats that were read, though another share was the larger.</summary>
    [Fact]
    public void WhatWasReadIsToldFirst() =>
        Gen.Select(Gen.Double[0.01, 1].Array[2, 6], Gen.Int[0, 1], Gen.Double[0.2, 2]).Sample((shares, read, slope) =>
        {
            var told = BeatAnswers.Calibrated(shares, read, new(slope, -1));
            Assert.All(told, share => Assert.True(share <= told[read]));
            Assert.Equal(1, told.Sum(), 6);
        }, iter: 2000, seed: "0000KhQ8ZQk4");
}
