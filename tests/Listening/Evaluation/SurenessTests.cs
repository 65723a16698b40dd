using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Evaluation;

public class SurenessTests
{
    [Fact]
    public void ABeatIsRightWithin70MillisecondsAndJudgedBetweenTheTrueOnes()
    {
        var hearing = HandMade.Hearing([Beat(0.2, 0.3), Beat(1.05, 0.9), Beat(1.6, 0.8), Beat(2, 0.7), Beat(2.5, 0.6)], []);
        var truth = new Annotation { Beats = [new(1, 1), new(1.5, 2), new(2, 1)] };

        var judged = Sureness.Judge(hearing, truth).Where(j => j.Kind == "beat");

        Assert.Equal([(0.9, true), (0.8, false), (0.7, true)], judged.Select(j => (j.Confidence, j.Right)));
    }

    private static HeardBeat Beat(double at, double confidence) => new(Seconds.FromSeconds(at), 1, confidence);

    // Worked by hand: at 0.9 and above, three seconds of four are right; at 0.5 to 0.7, none of one.
    [Fact]
    public void SharesAreByWeightBetweenBounds()
    {
        JudgedEstimate[] estimates =
        [
            new("chord", 0.95, true, 2), new("chord", 0.9, false, 1), new("chord", 1, true, 1), new("chord", 0.69, false, 3), new("key", 0.2, true, 1),
        ];

        var rows = Sureness.Gather(estimates);

        Assert.Equal([("chord", 0.5, 0.7, 0.0, 1), ("chord", 0.9, 1.0, 0.75, 3), ("key", 0.0, 0.3, 1.0, 1)],
            rows.Select(r => (r.Kind, r.From, r.To, r.Share, r.Count)));
    }
}
