namespace Harkbook.Listening.Tests;

// A. Kolmogorov, "Foundations of the Theory of Probability", 1933: probabilities are 0 to 1, those of things that rule each other out sum to at most 1.
public class DistributionTests
{
    [Theory]
    [InlineData(0.5, 0.3)]
    [InlineData(1, 0)]
    [InlineData(0.2, 0.8)]
    public void KeepsProbabilities(double first, double second) =>
        Assert.Equal(Math.Max(first, second), new Distribution<string>(new("a", first), new Candidate<string>("b", second)).Confidence);

    [Theory]
    [InlineData(0.7, 0.7)]
    [InlineData(-0.1, 0.5)]
    [InlineData(1.1, 0)]
    [InlineData(double.NaN, 0.1)]
    public void RefusesWhatIsNone(double first, double second) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Distribution<string>(new("a", first), new Candidate<string>("b", second)));

    [Fact]
    public void ForgivesRounding() =>
        Assert.Equal(0.5, new Distribution<string>(new("a", 0.5), new Candidate<string>("b", 0.5 + 1e-12)).Confidence, 1e-9);
}
