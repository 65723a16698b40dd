using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evaluation;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.SecondInstrument;

/// <summary>Known-answer sound: our own strings and reeds.</summary>
public class SecondInstrumentEstimatorTests
{
    private const string SecondPosition = "-2 -3 +4 -4 -4 +4 -3 -2 . -2&-3 +4 -4 -5 -4 -3' -2 . -1 -2'' -2 +4 -4 +5 +6 -6 . -4&-5 -4 +4 -3 -2 -2";

    private static HeardSecondInstrument Hear(Signal sound, string key) =>
        new SecondInstrumentEstimator().Estimate(sound, Hertz.A440, Duet.InKey(key), null, TestContext.Current.CancellationToken);

    [Theory]
    [InlineData(3, 0.8)]
    [InlineData(0, 0.8)]
    [InlineData(-6, 0.5)]
    public void AHarmonicaOverStrumsIsHeardWithItsKeyAndItsHoles(double decibels, double least)
    {
        var (sound, truth) = Duet.With(Harmonica.Richter(PitchName.Parse("C")), SecondPosition, decibels);
        var heard = Hear(sound, "G major");
        Assert.Equal(SecondInstrumentKind.Harmonica, heard.Kind.Best);
        Assert.Equal((PitchName.Parse("C"), 2), (heard.Harp!.Best.Key, heard.Harp.Best.Position));
        var holes = SecondInstrumentScores.Of(heard, Hertz.A440, truth).Single(m => m.Measure == "harp hole and breath").Value;
        Assert.True(holes > least, $"{holes:0.00} of the holes are right");
    }

    [Fact]
    public void AGuitarAloneIsHeardAlone()
    {
        var heard = Hear(Duet.Guitar(20), "G major");
        Assert.Equal(SecondInstrumentKind.None, heard.Kind.Best);
        Assert.Empty(heard.Notes);
        Assert.Null(heard.Harp);
        Assert.All(heard.Contour.Confidence, c => Assert.Equal(0, c));
    }

    [Fact]
    public void SilenceIsNoInstrument() => Assert.Equal(SecondInstrumentKind.None, Hear(new(SampleRate.FromHertz(22_050), new float[22_050]), "C major").Kind.Best);

    [Fact]
    public void TheContourFollowsABendInCents()
    {
        // A fifth harmonic series that glides from A4 up to B4 in a second and stays: 0 to 200 cents about A440.
        var (samples, phase) = (new float[3 * 22_050], 0.0);
        for (var n = 0; n < samples.Length; n++)
        {
            var cents = 200 * Math.Clamp(n / 22_050.0 - 1, 0, 1) + 12 * Math.Sin(2 * Math.PI * 5.2 * n / 22_050);
            phase += 2 * Math.PI * 440 * Math.Pow(2, cents / 1200) / 22_050;
            samples[n] = (float)Enumerable.Range(1, 9).Sum(h => 0.1 / h * Math.Sin(h * phase));
        }
        var strands = SecondInstrumentScan.Strands(new Signal(SampleRate.FromHertz(22_050), samples), Hertz.A440, null, TestContext.Current.CancellationToken);
        float At(double time) => strands.Where(s => Math.Abs(s.MedianMidi - 70) < 2).SelectMany(s => s.Tones.Select((t, f) => (Frame: s.First + f, t.Midi)))
            .First(t => t.Frame == (int)(time * SecondInstrumentScan.FramesPerSecond)).Midi;
        Assert.Equal(69, At(0.5), 0.15);
        Assert.Equal(70, At(1.5), 0.15);
        Assert.Equal(71, At(2.5), 0.15);
    }
}
