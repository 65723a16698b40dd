using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Retuning;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis;

public class RetuningRemarksTests
{
    // Open D from standard (common practice; Encyclopedia of Music): four strings down, none up.
    [Fact]
    public void OpenDGoesDownOnFourStrings()
    {
        var remark = Assert.Single(Of("tuning D2 A2 D3 F#3 A3 D4"));
        Assert.Equal(
            "The guitar is tuned to open D. From standard, four strings go down: the sixth two semitones to D, the third a semitone to F sharp, the second two "
                + "semitones to A and the first two semitones to D.",
            remark.Sentence);
        Assert.Equal(RemarkTopic.Tuning, remark.Topic);
    }

    // Open E raises three strings, by up to 2^(2/6) = 1.26 in tension; open D under a capo at 2 is the way round that players take.
    [Fact]
    public void OpenEIsCautionedOf()
    {
        var caution = Assert.Single(Of("tuning E2 B2 E3 G#3 B3 E4"), r => r.Kind == RemarkKind.StringTunedUp);
        Assert.Contains("Three strings go above standard, with up to 26 percent more tension", caution.Sentence);
        Assert.Contains("keep your eyes away", caution.Sentence);
        Assert.EndsWith("Open D with a capo at fret 2 sounds the same, and fewer strings go up.", caution.Sentence);
    }

    [Theory]
    [InlineData("tuning E2 A2 D3 G3 B3 E4")]
    [InlineData("capo 3")]
    [InlineData("tuning G4 C4 E4 A4")]
    public void TheUsualTuningNeedsNoWord(string text) => Assert.Empty(Of(text));

    private static Remark[] Of(string text) => [.. RetuningRemarks.Of(SongText.Parse($"title Far\n{text}\n", "a.hark").Song!)];
}
