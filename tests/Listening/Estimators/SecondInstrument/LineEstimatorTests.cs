using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evaluation;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.SecondInstrument;

/// <summary>Known-answer sound: our own strings and reeds.</summary>
public class LineEstimatorTests
{
    private const string SecondPosition = "-2 -3 +4 -4 -4 +4 -3 -2 . -2&-3 +4 -4 -5 -4 -3' -2 . -1 -2'' -2 +4 -4 +5 +6 -6 . -4&-5 -4 +4 -3 -2 -2";

    private static HeardLines Hear(Signal sound, string key) =>
        new LineEstimator().Estimate(sound, Hertz.A440, Duet.InKey(key), null, TestContext.Current.CancellationToken);

    [Theory]
    [InlineData(3, 0.8)]
    [InlineData(0, 0.8)]
    [InlineData(-6, 0.5)]
    public void AHarmonicaOverStrumsIsHeardWithItsKeyAndItsHoles(double decibels, double least)
    {
        var (sound, truth) = Duet.With(Harmonica.Richter(PitchName.Parse("C")), SecondPosition, decibels);
        var heard = Hear(sound, "G major");
        var line = Assert.Single(heard.Found);
        Assert.Equal(LineKind.Harmonica, line.Kind.Best);
        Assert.Equal((PitchName.Parse("C"), 2), (line.Harp!.Best.Key, line.Harp.Best.Position));
        var holes = LineScores.Of(heard, Hertz.A440, truth).Single(m => m.Measure == "harp hole and breath").Value;
        Assert.True(holes > least, $"{holes:0.00} of the holes are right");
    }

    [Fact]
    public void AGuitarAloneIsHeardAlone()
    {
        var heard = Hear(Duet.Guitar(20), "G major");
        Assert.Empty(heard.Found);
        Assert.True(heard.Alone > 0.5);
    }

    [Fact]
    public void SilenceIsNoInstrument() => Assert.Empty(Hear(new(SampleRate.FromHertz(22_050), new float[22_050]), "C major").Found);
}
