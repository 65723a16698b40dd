using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Explaining;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis;

/// <summary>What an explanation says under a capo.</summary>
public class CapoRemarksTests
{
    private const string Head = "title Lantern Hill\ntuning E2 A2 D3 G3 B3 E4\ncapo 2\nmeter 4/4\ntempo 90\n";

    // A at capo 2 sounds B: two semitones.
    [Theory]
    [InlineData("key B minor\nshape Bm x02210\nsection A\nchords | Bm |\n", "all that follows is named by what sounds")]
    [InlineData("names hand\nkey A minor\nshape Am x02210\nsection A\nchords | Am |\n",
        "what follows has the hand's names, as the song's file does, but for harmonica and tuning")]
    public void TheHandsNameIsSaidOnceBesideWhatSounds(string text, string rest)
    {
        var explanation = Of(text);
        var said = Assert.Single(explanation.Remarks, r => r.Kind == RemarkKind.NamesUnderCapo);
        Assert.Equal($"The capo is on fret 2: play A minor, and it sounds B minor. The hand plays in A minor and the song sounds in B minor; {rest}.",
            said.Sentence);
        Assert.Same(said, explanation.Remarks[0]);
        Assert.Contains("Am sounds Bm", said.Facts[0].Value);
    }

    // Under a capo at 2 a D harp is to the hand's names what a C harp is without one: all names lie two semitones up.
    [Fact]
    public void ASongInTheHandsNamesIsExplainedInThem()
    {
        const string Bars = "chords | C . C7 . | F . Fm . |\nharp | +4 . . . | -5 . . . |\n";
        var plain = Of("harp C\nkey C major\nshape C x32010\nshape F 133211\n" + "section A\n" + Bars, "none").Remarks;
        var hand = Of("harp D\nnames hand\nkey C major\nshape C x32010\nshape F 133211\n" + "section A\n" + Bars).Remarks;
        string[] Named(IEnumerable<Remark> remarks) =>
            [.. remarks.Where(r => r.Kind != RemarkKind.NamesUnderCapo && r.Topic is RemarkTopic.Harmony or RemarkTopic.Layers or RemarkTopic.Hand)
            .Select(r => r.Sentence)];
        Assert.Contains(Named(hand), s => s.Contains("F minor", StringComparison.Ordinal));
        Assert.Equal(Named(plain), Named(hand));
    }

    [Fact]
    public void WithoutACapoNothingIsSaidOfIt() =>
        Assert.DoesNotContain(Explanation.Of(SongText.Parse((Head + "key A minor\nsection A\nchords | Am |\n").Replace("capo 2", "capo none"),
            "t").Song!).Remarks, r => r.Kind == RemarkKind.NamesUnderCapo);

    // Shapes of A minor and C under the names Am and G at capo 2 sound Bm and D: F#, which neither A minor nor G holds, must not be told of.
    [Fact]
    public void ShapesThatContradictTheirNamesAreLeftOutAndThatIsSaid()
    {
        var explanation = Of("key A minor\nshape Am x02210\nshape G x32010\nshape Dm xx0231\nsection A\nchords | Am . G . | Dm . Am . |\nchords | Am . G . | "
            + "Am . . . |\n");
        Assert.Equal("Am as x02210 sounds Bm, G as x32010 sounds D and Dm as xx0231 sounds Em, so what follows goes by the chords' names and leaves those "
            + "shapes out; mend the names or the shapes.", explanation.Caution);
        Assert.DoesNotContain(explanation.Remarks, r => r.Sentence.Contains("sharp", StringComparison.Ordinal) || r.Topic == RemarkTopic.Hand);
    }

    private static Explanation Of(string text, string capo = "2") =>
        Explanation.Of(SongText.Parse(Head.Replace("capo 2", "capo " + capo) + text, "lantern.hark").Song!);
}
