using CsCheck;
using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Analysis.Rhythm;

public class TappedRhythmTests
{
    // 120 beats a minute from 10 s on: a bar lasts 2 s.
    private const string TwoBars = "tempo 120\nsection A\nanchors 1 = 0:10 3 = 0:14\nchords | C | C |\n";

    [Fact]
    public void TapsFallOnTheCount()
    {
        var taps = TappedRhythm.Of(AnySong.Of(TwoBars), [At(10.01, "one"), At(10.74, "and"), At(11.99, "next"), At(12.26)]);
        Assert.Equal([(1, 0, "one"), (1, 1.5, "and"), (2, 0, "next"), (2, 0.5, "x")], taps.Taps.Select(t => (t.Bar, t.At.Value, t.Syllable)));
    }

    // Thirds of half a second are 0.1667 s apart, quarters 0.125 s.
    [Theory]
    [InlineData("10 10.17 10.33", "0 1/3 2/3")]
    [InlineData("10 10.12 10.26 10.37", "0 1/4 1/2 3/4")]
    [InlineData("10.02 10.27 10.49", "0 1/2 1")]
    public void ABarTakesTheGridThatItsTapsLieNear(string times, string places) =>
        Assert.Equal(places, string.Join(' ', TappedRhythm.Of(AnySong.Of(TwoBars), times.Split(' ').Select(t => At(double.Parse(t)))).Taps.Select(t => t.At)));

    [Fact]
    public void AHandThatIsAlwaysLateIsSetRight() =>
        Gen.Select(Gen.Int[0, 31].Array[4, 12], Gen.Double[-0.045, 0.045]).Sample((steps, late) =>
        {
            int[] eighths = [.. steps.Select(s => s / 2).Distinct().Order()];
            var taps = TappedRhythm.Of(AnySong.Of(TwoBars), eighths.Select(e => At(10 + e * 0.25 + late)));
            return Math.Abs(taps.Lateness.Value - late) < 1e-9 && taps.Taps.Select(t => (t.Bar - 1) * 8 + (int)(t.At.Value * 2)).SequenceEqual(eighths);
        });

    [Fact]
    public void TheSongGetsItsSyllables()
    {
        var document = SongText.Parse("title Made Up\n" + TwoBars, "made-up.hark");
        var sung = TappedRhythm.Of(document.Song!, [At(10.5, "oh"), At(12, "my")]).Onto(document);
        Assert.Equal(document.Text + "sung       | . oh . . | my . . . |\n", sung.Text);
        Assert.Equal([(1.0, 3.0, "oh"), (0.0, 4.0, "my")], sung.Song!.Bars.SelectMany(b => b.Sung).Select(s => (s.Start.Value, s.Length.Value, s.Value)));
    }

    [Fact]
    public void TapsOutsideTheSongAreLeftOut() => Assert.Empty(TappedRhythm.Of(AnySong.Of(TwoBars), [At(3), At(30)]).Taps);

    [Theory]
    [InlineData("0:12.402 The", 12.402, "The")]
    [InlineData("12.5", 12.5, "x")]
    [InlineData("1:02\tlate", 62, "late")]
    public void LinesAreRead(string line, double at, string syllable) => Assert.Equal(At(at, syllable), Tap.Read(line));

    [Theory]
    [InlineData("")]
    [InlineData("soon")]
    [InlineData("1.0 2.0 word")]
    public void OtherLinesAreNot(string line) => Assert.Null(Tap.Read(line));

    private static Tap At(double seconds, string syllable = "x") => new(Seconds.FromSeconds(seconds), syllable);
}
