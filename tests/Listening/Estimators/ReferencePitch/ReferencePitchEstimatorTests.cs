using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.ReferencePitch;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.ReferencePitch;

public class ReferencePitchEstimatorTests
{
    private const int Rate = 16_000;

    // Concert pitches in use and in history; cents by definition, 1200·log2(A/440).
    [Theory]
    [InlineData(432, -31.767)]
    [InlineData(435, -19.786)]
    [InlineData(440, 0)]
    [InlineData(442, 7.851)]
    [InlineData(444, 15.667)]
    [InlineData(430.54, -37.627)]
    public void FindsTheReferenceOfStiffStrings(double a4, double cents)
    {
        var found = Estimate(Song(a4));

        Assert.Equal(cents, Cents.Between(Hertz.A440, found.Best).Value, 3.0);
        Assert.InRange(found.Confidence, 0.5, 1);
        Assert.Contains("cents", found.Candidates[0].Evidence);
    }

    [Fact]
    public void VibratoAboveTheGuitarDoesNotPullIt()
    {
        var song = new Plucked(Rate, 6, 442);
        for (var i = 0; i < 6; i++)
            song.Chord(i, 1, 40, 47, 52, 56).Note(71 + i % 3 + 0.25, i, 1, 0.15, vibratoCents: 40);

        Assert.Equal(7.851, Cents.Between(Hertz.A440, Estimate(song.Signal).Best).Value, 4.0);
    }

    [Fact]
    public void NearHalfASemitoneBothReadingsAreGiven()
    {
        var found = Estimate(Song(440 * Math.Pow(2, 48 / 1200.0)));

        var readings = found.Candidates.Select(c => Cents.Between(Hertz.A440, c.Value).Value).ToList();
        Assert.Contains(readings, r => Math.Abs(r - 48) < 3);
        Assert.Contains(readings, r => Math.Abs(r + 52) < 3);
    }

    [Fact]
    public void SilenceGivesNoConfidence() =>
        Assert.Equal(0, Estimate(new Signal(SampleRate.FromHertz(Rate), new float[Rate])).Confidence);

    [Fact]
    public void NoiseGivesLittleConfidence()
    {
        var noise = Estimate(new Plucked(Rate, 4).Noise(0.3).Signal);

        Assert.InRange(noise.Confidence, 0, 0.3);
    }

    private static Distribution<Hertz> Estimate(Signal sound) => new ReferencePitchEstimator().Estimate(sound, TestContext.Current.CancellationToken);

    private static Signal Song(double a4)
    {
        var song = new Plucked(Rate, 6, a4);
        int[][] shapes = [[40, 47, 52, 56, 59, 64], [45, 52, 57, 61, 64], [50, 57, 62, 66], [43, 47, 50, 55, 59, 67]];
        for (var i = 0; i < 6; i++)
            song.Chord(i, 1, shapes[i % shapes.Length]);
        return song.Noise(0.003).Signal;
    }
}
