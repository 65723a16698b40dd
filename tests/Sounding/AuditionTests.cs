using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Sounding.Tests;

public class AuditionTests
{
    private const string Facts = "title Sample\npitch A4 = 440 Hz\ntuning E2 A2 D3 G3 B3 E4\ncapo none\nmeter 4/4\ntempo 120\nkey C major\n";

    // Standard tuning's open C shape: C3 E3 G3 C4 E4, so 130.81, 164.81, 196.00, 261.63 and 329.63 Hz (equal temperament about A4 = 440 Hz).
    private static readonly double[] OpenC = [130.8128, 164.8138, 195.9977, 261.6256, 329.6276];

    [Fact]
    public void AStrummedShapeSoundsItsStringsOnTime()
    {
        var sound = Render(Facts + "shape C x32010\nsection A\nchords | N.C. | C |\nstrum | _ | d |\n", new() { Parts = AuditionParts.Guitar });
        Assert.Equal(2.0, Sample.FirstOver(sound, 0, 0, 0.001), 0.005); // bar 2 at 120 beats a minute
        foreach (var f in OpenC)
        {
            Assert.InRange(Sample.CentsAbove(sound, 0, 2.2, 1, f), -1.5, 1.5);
            Assert.True(Sample.Level(sound, 0, 2.2, 1, f) > 5 * Sample.Level(sound, 0, 2.2, 1, f * Math.Pow(2, 0.5 / 12)));
        }
    }

    [Fact]
    public void ARecordingAtAnotherPitchIsSoundedAtThatPitch()
    {
        // A4 = 432 Hz lies 31.767 cents below 440 Hz.
        var sound = Render(Facts.Replace("440", "432") + "section A\npick\nA2 | 0 |\n", new() { Parts = AuditionParts.Guitar });
        Assert.InRange(Sample.CentsAbove(sound, 0, 0.3, 1.5, 110), -32.8, -30.7);
    }

    [Fact]
    public void ACapoRaisesWhatIsPicked()
    {
        var sound = Render(Facts.Replace("capo none", "capo 2") + "section A\npick\nE4 | 3 |\n", new() { Parts = AuditionParts.Guitar });
        Assert.InRange(Sample.CentsAbove(sound, 0, 0.3, 1.2, 440), -1.5, 1.5); // E4 + 2 + 3 semitones = A4
    }

    [Fact]
    public void ChordsAloneAreStrummedPlainlyOnTheBeats()
    {
        var sound = Render(Facts + "shape C x32010\nsection A\nchords | C |\n", new() { Parts = AuditionParts.Guitar });
        double Edge(double t) => Energy(sound, t + 0.03, 0.05) / Energy(sound, t - 0.06, 0.05);
        Assert.All(new[] { 0.5, 1.0, 1.5 }, beat => Assert.True(Edge(beat) > 1.2, $"nothing new at {beat} s"));
        Assert.True(Edge(1.25) < 1.05);
    }

    [Fact]
    public void AChordWithoutAShapeIsSoundedFromTheTuning()
    {
        var sound = Render(Facts + "section A\nchords | D |\nstrum | d |\n", new() { Parts = AuditionParts.Guitar });
        Assert.True(Sample.Level(sound, 0, 0.3, 1, 146.8324) > 0.003); // D3 in the bass
        Assert.True(Sample.Level(sound, 0, 0.3, 1, 146.8324) > 10 * Sample.Level(sound, 0, 0.3, 1, 130.81));
    }

    [Fact]
    public void AHarmonicaNoteSoundsItsHole()
    {
        // Richter layout in C: hole 4 blow is C5, 523.25 Hz; hole 4 draw D5, 587.33 Hz.
        var sound = Render(Facts + "harp C\nsection A\nharp | +4 . -4 . |\n", new() { Parts = AuditionParts.Harp });
        Assert.InRange(Sample.CentsAbove(sound, 0, 0.15, 0.3, 523.2511), -6, 6);
        Assert.InRange(Sample.CentsAbove(sound, 0, 1.15, 0.3, 587.3295), -6, 6);
    }

    [Fact]
    public void HalfSpeedTakesTwiceAsLongAtTheSamePitch()
    {
        var sound = Render(Facts + "section A\npick\nA2 | . . 0 . |\n", new() { Parts = AuditionParts.Guitar, Speed = 0.5 });
        Assert.Equal(2.0, Sample.FirstOver(sound, 0, 0, 0.001), 0.005);
        Assert.InRange(Sample.CentsAbove(sound, 0, 2.2, 1, 110), -1.5, 1.5);
    }

    [Fact]
    public void ACountInClicksBeforeTheFirstBarAndTheClickGoesOnWhenAsked()
    {
        const string quiet = Facts + "section A\nsung | . . . . |\n";
        var only = Render(quiet, new() { Parts = AuditionParts.None, CountInBars = 1 });
        Assert.All(new[] { 0, 0.5, 1, 1.5 }, t => Assert.Equal(t, Sample.FirstOver(only, 0, Math.Max(0, t - 0.1), 0.002), 0.003));
        Assert.Equal(-1, Sample.FirstOver(only, 0, 1.7, 0.002));
        var going = Render(quiet, new() { Parts = AuditionParts.Click, CountInBars = 1 });
        Assert.Equal(3.5, Sample.FirstOver(going, 0, 3.3, 0.002), 0.003);
    }

    /// <summary>A4 is 440 Hz, E5 659.26 Hz (equal temperament).</summary>
    [Theory]
    [InlineData("voice")]
    [InlineData("whistle")]
    [InlineData("fiddle")]
    [InlineData("lead guitar")]
    public void ATuneSoundsItsPitchesWhoeverPlaysIt(string player)
    {
        var sound = Render(Facts + $"tune {player}\nsection A\ntune | A4 . E5 _ |\n", new() { Parts = AuditionParts.Tune });
        Assert.InRange(Sample.CentsAbove(sound, 0, 0.15, 0.3, 440), -8, 8);
        Assert.InRange(Sample.CentsAbove(sound, 0, 1.15, 0.3, 659.2551), -8, 8);
        Assert.True(Energy(sound, 1.7, 0.2) < 0.02 * Energy(sound, 1.1, 0.2));
    }

    /// <summary>A whole step up is 200 cents; a quarter tone 50; common practice has a bend reach its pitch in a quarter second.</summary>
    [Theory]
    [InlineData("fiddle", "A4bB4", 200)]
    [InlineData("lead guitar", "A4bB4", 200)]
    [InlineData("voice", "A4b+1/2", 50)]
    public void ABendReachesWhereItIsBentTo(string player, string note, double cents)
    {
        var sound = Render(Facts + $"tune {player}\nsection A\ntune | {note} . . _ |\n", new() { Parts = AuditionParts.Tune });
        Assert.InRange(Sample.CentsAbove(sound, 0, 0.6, 0.6, 440 * Math.Pow(2, cents / 1200)), -12, 12);
    }

    [Fact]
    public void ASyllableOnANoteOfTheTuneDoesNotTick()
    {
        const string Both = Facts + "tune voice\nsection A\nsung | x _ x _ |\ntune | A4 _ _ _ |\n";
        var sound = Render(Both, new() { Parts = AuditionParts.Sung | AuditionParts.Tune });
        Assert.True(Sample.Level(sound, 0, 0.15, 0.3, 440) > 10 * Sample.Level(sound, 0, 0.15, 0.3, 261.6256)); // the key's C doesn't tick under A4
        Assert.True(Energy(sound, 1.05, 0.15) > 0.01 * Energy(sound, 0.15, 0.15)); // the second syllable does
    }

    [Fact]
    public void SungSyllablesTickWhereTheyStart()
    {
        var sound = Render(Facts + "section A\nsung | _ _ x _ |\n", new() { Parts = AuditionParts.Sung });
        Assert.Equal(1.0, Sample.FirstOver(sound, 0, 0, 0.01), 0.08); // a soft start
        Assert.True(Energy(sound, 1.6, 0.3) < 1e-3 * Energy(sound, 1.05, 0.15));
    }

    [Fact]
    public void AgainstARecordingTheClaimsAreLeftAndTheRecordingRightAtTheAnchorsTimes()
    {
        const string text = Facts + "recording r.wav\nsection A\nanchors 1 = 0:01.250\npick\nA2 | 0 |\n";
        var recording = Tone(880, 1.25, 4);
        var sound = Render(text, new() { Parts = AuditionParts.Guitar, Against = recording });
        Assert.Equal(1.25, Sample.FirstOver(sound, 0, 0, 0.001), 0.005);
        Assert.Equal(1.25, Sample.FirstOver(sound, 1, 0, 0.001), 0.005);
        Assert.True(Sample.Level(sound, 1, 1.5, 0.5, 880) > 100 * Sample.Level(sound, 1, 1.5, 0.5, 110));
        Assert.True(Sample.Level(sound, 0, 1.5, 0.5, 110) > 10 * Sample.Level(sound, 1, 1.5, 0.5, 110));
    }

    [Fact]
    public void SomeBarsAloneStartAtOnce()
    {
        var sound = Render(Facts + "section A\npick\nA2 | 0 | . | 0 |\n", new() { Parts = AuditionParts.Guitar, FirstBar = 3, LastBar = 3 });
        Assert.Equal(0, Sample.FirstOver(sound, 0, 0, 0.001), 0.005);
        Assert.Equal(4.5, sound.Duration.Value, 0.01); // a bar of 2 s and the tail
    }

    [Fact]
    public void TheLevelIsSafeAndTheSameClaimsSoundTheSame()
    {
        const string text = Facts + "shape C x32010\nsection A\nchords | C | C |\nstrum | d u d u | d u d u |\n";
        var (one, two) = (Render(text, new()), Render(text, new()));
        Assert.Equal(one.Channels[0], two.Channels[0]);
        Assert.Equal(-18, LoudnessMeter.Integrated(one)!.Value.Lufs, 0.5);
        Assert.True(LoudnessMeter.TruePeak(one) <= -0.99);
    }

    [Theory]
    [InlineData(0.2)]
    [InlineData(2.5)]
    public void ASpeedOutOfRangeIsRefused(double speed) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Render(Facts + "section A\npick\nA2 | 0 |\n", new() { Speed = speed }));

    private static Signal Render(string text, AuditionOptions options) =>
        Audition.Render(Sample.Song(text), options, TestContext.Current.CancellationToken);

    private static double Energy(Signal signal, double from, double length) =>
        signal.Channels[0].Skip((int)(from * signal.Rate.Hertz)).Take((int)(length * signal.Rate.Hertz)).Sum(x => (double)x * x);

    private static Signal Tone(double frequency, double from, double until)
    {
        var samples = new float[(int)(until * 44_100)];
        for (var i = (int)(from * 44_100); i < samples.Length; i++)
            samples[i] = (float)(0.3 * Math.Sin(2 * Math.PI * frequency * i / 44_100));
        return new(SampleRate.FromHertz(44_100), samples);
    }
}
