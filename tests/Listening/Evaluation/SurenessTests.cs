using Harkbook.Listening.Evaluation;

namespace Harkbook.Listening.Tests.Evaluation;

public class SurenessTests
{
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
