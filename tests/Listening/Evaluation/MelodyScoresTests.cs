using Harkbook.Listening.Evaluation;

namespace Harkbook.Listening.Tests.Evaluation;

/// <summary>
/// A worked example by the definitions of J. Salamon, E. Gómez, D. Ellis and G. Richard, IEEE Signal Processing Magazine 31(2), 2014,
/// and the documentation of mir_eval.melody (a pitch is right within 50 cents): ten frames counted by hand.
/// </summary>
public class MelodyScoresTests
{
    private static readonly MelodyFrame[] Ten =
    [
        new(6000, 6000), new(6000, 6049), new(6000, 6051), new(6000, 7210), new(6100, 4900), new(6100, null),
        new(null, null), new(null, null), new(null, 5500), new(null, null),
    ];

    [Fact]
    public void TenFramesGiveWhatAHandCounts()
    {
        var scores = MelodyScores.Of(Ten);
        Assert.Equal(2 / 6.0, scores.RawPitch, 1e-12);
        Assert.Equal(4 / 6.0, scores.RawChroma, 1e-12);
        Assert.Equal(5 / 6.0, scores.VoicingRecall, 1e-12);
        Assert.Equal(1 / 4.0, scores.VoicingFalseAlarm, 1e-12);
        Assert.Equal(5 / 10.0, scores.Overall, 1e-12);
    }

    [Fact]
    public void SilenceRightlyHeardIsAllRight()
    {
        var scores = MelodyScores.Of([new(null, null), new(null, null)]);
        Assert.Equal((0.0, 0.0, 1.0), (scores.VoicingRecall, scores.VoicingFalseAlarm, scores.Overall));
    }
}
