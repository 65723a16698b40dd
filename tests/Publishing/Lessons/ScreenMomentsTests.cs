using Harkbook.Publishing.Lessons.Timing;
using Harkbook.Publishing.Lessons.Video;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>One beat a second, so that every expected value can be read off the clock.</summary>
public sealed class ScreenMomentsTests
{
    private static readonly LessonTimeline Slow = new(LessonSongs.Read("""
        title  One Beat a Second
        tempo  60
        key    C major
        harp   C
        section A
          anchors 1 = 0:10.000
          chords | C | C . G . | _ |
          harp   | +4 _ -4 . | _ | _ |
        section B
          chords | F |
        """));

    private static readonly ScreenMoments Moments = new(Slow);

    // Felt beats a second long: an eighth of 6/8 lasts a third of one, so at 1.4 s the fifth of six counts sounds.
    [Theory]
    [InlineData("beats", 2, 1)]
    [InlineData("eighths", 6, 4)]
    public void CompoundBarsAreCountedAsTheSongSays(string count, int counts, int beat)
    {
        var timeline = new LessonTimeline(LessonSongs.Read($"title Six\nmeter 6/8\ntempo 60\ncount {count}\nsection A\nchords | C | C |\n"));
        Assert.Equal(counts, timeline.Bars[0].Count);
        Assert.Equal(beat, new ScreenMoments(timeline).At(1.4).Beat);
    }

    [Theory]
    [InlineData(0, -1, -1, 10)]
    [InlineData(6.5, -1, -1, 4)]
    [InlineData(9.99, -1, -1, 1)]
    [InlineData(10, 0, 0, 0)]
    [InlineData(11.5, 0, 1, 0)]
    [InlineData(17.9, 1, 3, 0)]
    [InlineData(18, 2, 0, 0)]
    [InlineData(25.99, 3, 3, 0)]
    public void BarAndBeatFollowTheClock(double time, int bar, int beat, int beatsToStart)
    {
        var moment = Moments.At(time);
        Assert.Equal((bar, beat, beatsToStart, false), (moment.Bar, moment.Beat, moment.BeatsToStart, moment.IsOver));
    }

    [Theory]
    [InlineData(0, 10)]
    [InlineData(9.5, 1)]
    [InlineData(10, 6)]
    [InlineData(10.99, 6)]
    [InlineData(11, 5)]
    [InlineData(15.5, 1)]
    [InlineData(16, 6)]
    [InlineData(22, 0)]
    public void BeatsToTheNextChordCountTheOneThatSounds(double time, int beats) => Assert.Equal(beats, Moments.At(time).BeatsToNext);

    [Theory]
    [InlineData(10, true)]
    [InlineData(17.9, true)]
    [InlineData(18.5, false)]
    [InlineData(22.5, true)]
    public void AChordThatEndsBeforeTheNextIsNotHeldOn(double time, bool holds) => Assert.Equal(holds, Moments.At(time).Holds);

    [Theory]
    [InlineData(9, -1)]
    [InlineData(10.5, 0)]
    [InlineData(11.5, -1)]
    [InlineData(12.5, 1)]
    [InlineData(14.5, -1)]
    public void ABreathEndsWithItsNote(double time, int breath) => Assert.Equal(breath, Moments.At(time).Breath);

    [Fact]
    public void TheMusicEndsBeforeTheRecordingDoes() => Assert.True(Moments.At(26.01).IsOver);

    [Fact]
    public void AChordThatGoesOnOverABarLineIsOne() =>
        Assert.Equal([(10.0, 16.0, "C"), (16.0, 18.0, "G"), (22.0, 26.0, "F")],
            Slow.Chords.Select(c => (Math.Round(c.Start, 6), Math.Round(c.End, 6), c.Value.Name)));
}
