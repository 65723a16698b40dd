using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Voices;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Synthesis;

public class VoiceLikeTests
{
    [Fact]
    public void AHeldSyllableSitsOnItsPitchAndTheNextGlidesToItsOwn()
    {
        var sound = Sound(Tone(0, 1, 220, "hod"), Tone(1, 2, 277.18, "hod"));
        Assert.InRange(Measure.Cents(220, Measure.Frequency(sound, 0.1, 0.4, 220)), -4, 4);
        Assert.InRange(Measure.Cents(277.18, Measure.Frequency(sound, 1.1, 0.8, 277.18)), -4, 4);
    }

    [Theory]
    [InlineData("heed")]
    [InlineData("hod")]
    [InlineData("who")]
    [InlineData("had")]
    public void HarmonicsNearAVowelsFormantsStandOut(string name)
    {
        // Formants from Peterson & Barney, JASA 24(2), 1952, table II: within 60 Hz of one, a harmonic is
        // stronger than at the dip half-way to the next, after the source's own slope is taken off.
        var vowel = Vowel.All.Single(v => v.Name == name);
        var sound = Sound(Tone(0, 2.5, 60, name));
        double Level(double f)
        {
            var h = Math.Round(f / 60);
            return Measure.Level(sound, 0.1, 0.15, h * 60) * Math.Pow(h, 1.7);
        }
        Assert.True(Level(vowel.Formants[1]) > 1.5 * Level((vowel.Formants[1] + vowel.Formants[2]) / 2));
        Assert.True(Level(vowel.Formants[0]) > 1.5 * Level(vowel.Formants[0] * 2.2) || vowel.Formants[1] < 2.5 * vowel.Formants[0]);
    }

    [Fact]
    public void ItIsSilentBetweenAndAfterSyllables()
    {
        var sound = Sound(Tone(0.2, 0.8, 220, "hud"), Tone(1.6, 2, 220, "hud"));
        var loud = Measure.Rms(sound, 0.4, 0.3);
        Assert.Equal(0, Measure.Rms(sound, 0, 0.19));
        Assert.InRange(Measure.Decibels(Measure.Rms(sound, 1.2, 0.3) / loud), double.NegativeInfinity, -60);
    }

    private static VoiceTone Tone(double at, double until, double frequency, string vowel) =>
        new(Seconds.FromSeconds(at), Seconds.FromSeconds(until), Hertz.FromHertz(frequency), 0.7, Vowel.All.Single(v => v.Name == vowel));

    private static Signal Sound(params VoiceTone[] tones) => new VoiceLike(SampleRate.FromHertz(44_100), 1).Sound(tones, Seconds.FromSeconds(3));
}
