using Harkbook.Music.Analysis;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis;

/// <summary>What an explanation says under a capo.</summary>
public class CapoRemarksTests
{
    private const string Head = "title Lantern Hill\ntuning E2 A2 D3 G3 B3 E4\ncapo 2\nmeter 4/4\ntempo 90\n";

    // A at capo 2 sounds B: two semitones.
    [Theory]
    [InlineData("key B minor\nshape Bm x02210\nsection A\nchords | Bm |\n")]
    [InlineData("names hand\nkey A minor\nshape Am x02210\nsection A\nchords | Am |\n")]
    public void TheHandsNameIsSaidOnceBesideWhatSounds(string text)
    {
        var explanation = Of(text);
        var said = Assert.Single(explanation.Remarks, r => r.Kind == RemarkKind.NamesUnderCapo);
        Assert.Equal("The capo is on fret 2: play A minor, and it sounds B minor. The hand plays in A minor and the song sounds in B minor; all that follows is named by what sounds.", said.Sentence);
        Assert.Same(said, explanation.Remarks[0]);
        Assert.Contains("Am sounds Bm", said.Facts[0].Value);
    }

    [Fact]
    public void WithoutACapoNothingIsSaidOfIt() =>
        Assert.DoesNotContain(Explanation.Of(SongText.Parse((Head + "key A minor\nsection A\nchords | Am |\n").Replace("capo 2", "capo none"), "t").Song!).Remarks, r => r.Kind == RemarkKind.NamesUnderCapo);

    // Shapes of A minor and C under the names Am and G at capo 2 sound Bm and D: F#, which neither A minor nor G holds, must not be told of.
    [Fact]
    public void ShapesThatContradictTheirNamesAreLeftOutAndThatIsSaid()
    {
        var explanation = Of("key A minor\nshape Am x02210\nshape G x32010\nshape Dm xx0231\nsection A\nchords | Am . G . | Dm . Am . |\nchords | Am . G . | Am . . . |\n");
        Assert.Equal("Am as x02210 sounds Bm, G as x32010 sounds D and Dm as xx0231 sounds Em, so what follows goes by the chords' names and leaves those shapes out; mend the names or the shapes.", explanation.Caution);
        Assert.DoesNotContain(explanation.Remarks, r => r.Sentence.Contains("sharp", StringComparison.Ordinal) || r.Topic == RemarkTopic.Hand);
    }

    private static Explanation Of(string text) => Explanation.Of(SongText.Parse(Head + text, "lantern.hark").Song!);
}
