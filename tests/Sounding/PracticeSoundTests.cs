using Harkbook.Audio.Signals;
using Harkbook.Music.Analysis.Practice;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Sounding.Tests;

public class PracticeSoundTests
{
    private const string Facts = "title Sample\npitch A4 = 440 Hz\ntuning E2 A2 D3 G3 B3 E4\ncapo none\nmeter 4/4\ntempo 120\nkey C major\nshape C x32010\n";
    private const string Strummed = Facts + "section A\nchords | C |\nstrum | d . _ . |\n";
    private static readonly CancellationToken Ct = TestContext.Current.CancellationToken;

    // The guitar's first stroke comes a bar after the count-in's first click, and again a bar later: its C3 (130.81 Hz) is silent before.
    [Fact]
    public void TheBarsArePlayedRoundAfterRoundAtAModerateLevel()
    {
        var sound = PracticeSound.OfClaims(Plan(1, 2), click: true, Ct);
        double Level(double at) => Sample.Level(sound, 0, at, 0.5, 130.8128);
        Assert.True(Level(2.1) > 5 * Level(1.3));
        Assert.True(Level(4.1) > 2 * Level(3.4));
        Assert.Equal(-18, LoudnessMeter.Integrated(sound)!.Value.Lufs, 0.8);
        Assert.True(LoudnessMeter.TruePeak(sound) <= -0.9);
    }

    // Clicks last 60 ms and sound at 1,400 and 2,100 Hz; the third beat of the counted bar is at 1 s, that of the round at 3 s.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void ClicksCanBeKeptToTheCountedBars(bool click)
    {
        var sound = PracticeSound.OfRecording(Plan(1, 1), [Silence(2)], click, Ct);
        double Level(double at) => Sample.Level(sound, 0, at, 0.05, 1400);
        Assert.True(Level(1) > 0.01);
        Assert.Equal(click, Level(3) > 0.01);
    }

    // A passage of 1 s of 330 Hz in a bar of 2 s sounds at the start of each round: 2 s and 4 s.
    [Fact]
    public void TheRecordingsPassageSoundsInEachRound()
    {
        var tone = Enumerable.Range(0, 44_100).Select(i => 0.3f * MathF.Sin(2 * MathF.PI * 330 * i / 44_100)).ToArray();
        var sound = PracticeSound.OfRecording(Plan(1, 2), [new Signal(SampleRate.FromHertz(44_100), tone)], false, Ct);
        double Level(double at) => Sample.Level(sound, 0, at, 0.5, 330);
        Assert.True(Level(2.2) > 20 * Level(1.4));
        Assert.True(Level(4.2) > 20 * Level(3.4));
    }

    private static PracticePlan Plan(double speed, int rounds) =>
        PracticePlan.Of(SongText.Parse(Strummed, "sample.hark").Song!, new() { FirstBar = 1, LastBar = 1, Speeds = [speed], Rounds = rounds });

    private static Signal Silence(int seconds) => new(SampleRate.FromHertz(44_100), new float[44_100 * seconds]);
}
