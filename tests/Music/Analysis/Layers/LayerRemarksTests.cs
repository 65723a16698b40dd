using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Layers;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis.Layers;

/// <summary>Planted features: a C harmonica (draw 4 5 6 are D F A; Wikipedia, "Richter-tuned harmonica") over shapes as beginners' charts give them.</summary>
public class LayerRemarksTests
{
    private const string Head = "harp C\nshape C x32010\nshape G 320003\nshape A x02220\nshape Asus4 x02230\nshape D xx0232\nsection A\n";

    // D minor over G is G9: 5 b7 9.
    [Fact]
    public void ADrawChordMakesANinth()
    {
        var remark = Of("chords | C | G | C |\nharp | +4&+5 . . . | -4&-5&-6 . . . | +4&+5 . . . |", RemarkKind.LayeredChord);
        Assert.Equal("The harmonica's draw 4, 5 and 6, D, F and A, turn the guitar's G into G nine: F is its flat seventh and A is its ninth.",
            remark.Sentence);
        Assert.Contains(remark.Facts, f => f is { Name: "upper structure", Value: "Dm over G" });
        Assert.Contains(remark.Facts, f => f is { Name: "shared notes", Value: "D" });
        Assert.Equal(2, Assert.Single(remark.Places).Bar);
    }

    [Fact]
    public void DoublingTheChordIsNoRemark() =>
        Assert.DoesNotContain(LayerRemarks.Of(AnySong.Of(Head + "chords | C | C |\nharp | +4&+5 . . . | +4&+5&+6 . . . |\n")),
            r => r.Kind == RemarkKind.LayeredChord);

    // F above E is a minor ninth.
    [Fact]
    public void AHeldSemitoneClashes()
    {
        var remark = Of("chords | C | C |\nharp | +4 . . . | -5 . +5 . |", RemarkKind.LayersClash);
        Assert.Equal("The harmonica's F, draw 5, rubs a semitone against the guitar's E.", remark.Sentence);
        Assert.Contains(remark.Facts, f => f.Value.Contains("E4 string 1, open", StringComparison.Ordinal)
            || f.Value.Contains("E3 string 4, fret 2", StringComparison.Ordinal));
        Assert.Equal(2, Assert.Single(remark.Places).Bar);
    }

    [Fact]
    public void CAgainstCSharpIsACrossRelation() =>
        Assert.Equal(
            "The harmonica's C, blow 4, stands across the guitar's C sharp, the same letter under another sign.",
            Of("chords | A |\nharp | +4 . . . |", RemarkKind.CrossRelation, "key A major\n").Sentence);

    // Draw 1 bent is D flat 4, a semitone over the C4 of x32010; the blow notes are the chord's own, an octave up.
    [Fact]
    public void TheRoughestMomentIsFound()
    {
        var remark = Of("chords | C | C | C | C |\nharp | +6 . . . | +5 . . . | +6 . -1' . | +6 . . . |", RemarkKind.RoughMoment);
        Assert.Equal("Guitar and harmonica rub most in bar 3 on three.", remark.Sentence);
    }

    [Fact]
    public void EvenSoundHasNoRoughestMoment() =>
        Assert.DoesNotContain(LayerRemarks.Of(AnySong.Of(Head + "chords | C | C |\nharp | +4 . . . | +4 . . . |\n")), r => r.Kind == RemarkKind.RoughMoment);

    // x02230 to x02220: the fourth steps down to the third on its string. From D (xx0232, D on that string) it is prepared.
    [Theory]
    [InlineData("D | Asus4 | A |", "The fourth of A sus four, D, is prepared, since the string holds it from the chord before, and steps down after it.")]
    [InlineData("A | Asus4 | D |", "The fourth of A sus four, D, comes unprepared and doesn't step down after it.")]
    public void SuspensionsAreTraced(string chords, string sentence) => Assert.Equal(sentence, Of($"chords | {chords}", RemarkKind.SuspendedFourth).Sentence);

    private static Remark Of(string bars, RemarkKind kind, string key = "") => Assert.Single(LayerRemarks.Of(Song(bars, key)), r => r.Kind == kind);

    private static Song Song(string bars, string key) => AnySong.Of(key + Head + bars + "\n");
}
