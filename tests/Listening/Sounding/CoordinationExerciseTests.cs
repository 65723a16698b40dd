using Harkbook.Audio.Signals;
using Harkbook.Listening.Sounding;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Sounding;

public class CoordinationExerciseTests
{
    private const string Facts = "title Sample\npitch A4 = 440 Hz\ntuning E2 A2 D3 G3 B3 E4\ncapo none\nmeter 4/4\ntempo 120\nkey C major\nshape C x32010\n";
    private const string Song = Facts + "section A\nchords | C | C |\nstrum | d . d . | d . d . |\nsung | x . . . | . x . . |\n";

    // One bar of four beats at 120 a minute lasts 2 s, at half the tempo 4 s: a count-in and two rounds are three bars.
    [Fact]
    public void Speeds_follow_each_other_each_after_a_bar_of_clicks()
    {
        var (sound, stages) = Render(Song, new() { FirstBar = 1, LastBar = 1, Speeds = [0.5, 1], Rounds = 2 });
        Assert.Equal([(0.5, 60.0, 0.0), (1.0, 120.0, 12 + 2.5)], stages.Select(s => (s.Speed, Math.Round(s.Tempo, 6), Math.Round(s.At.Value, 3))));
        Assert.Equal(12 + 2.5 + 6 + 2.5, sound.Duration.Value, 2);
        Assert.Equal(-18, LoudnessMeter.Integrated(sound)!.Value.Lufs, 0.8);
        Assert.True(LoudnessMeter.TruePeak(sound) <= -0.9);
    }

    // The guitar's first stroke comes a bar after the count-in's first click, and again a bar later: its C3 (130.81 Hz) is silent before.
    [Fact]
    public void The_bars_are_played_round_after_round()
    {
        var (sound, _) = Render(Song.Replace("d . d . | d", "d . _ . | d"), new() { FirstBar = 1, LastBar = 1, Speeds = [1], Rounds = 2 });
        double Level(double at) => Sample.Level(sound, 0, at, 0.5, 130.8128);
        Assert.True(Level(2.1) > 5 * Level(1.3));
        Assert.True(Level(4.1) > 2 * Level(3.4));
    }

    // Anchors say that bar 2 lasts 3 s: 80 beats a minute.
    [Fact]
    public void The_tempo_is_the_records_own()
    {
        var (_, stages) = Render(Song.Replace("section A\n", "section A\nanchors 1 = 0 2 = 0:02 3 = 0:05\n"), new() { FirstBar = 2, LastBar = 2, Speeds = [1], Rounds = 1 });
        Assert.Equal(80, Assert.Single(stages).Tempo, 6);
    }

    [Fact]
    public void Bars_without_words_are_refused() =>
        Assert.Throws<ArgumentException>(() => Render(Facts + "section A\nchords | C |\nsung | _ |\n", new() { FirstBar = 1, LastBar = 1 }));

    [Theory]
    [InlineData(0, 1, 1)]
    [InlineData(1, 3, 1)]
    [InlineData(1, 1, 0)]
    [InlineData(1, 1, 17)]
    public void Values_out_of_range_are_refused(int first, int last, int rounds) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Render(Song, new() { FirstBar = first, LastBar = last, Rounds = rounds }));

    private static (Signal Sound, IReadOnlyList<ExerciseStage> Stages) Render(string text, ExerciseOptions options)
    {
        var (sound, stages) = CoordinationExercise.Render(SongText.Parse(text, "sample.hark").Song!, options, null, TestContext.Current.CancellationToken);
        return (sound, stages);
    }
}
