using CsCheck;
using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Analysis.Hands;

public class ShapeChangeTests
{
    // Open-position shapes and fingers as beginners' charts give them (common practice); semitones are fret differences by hand.
    // Least motions: the neo-Riemannian moves (music21's neoRiemannian, commit 3146cb0) and their sums.
    [Theory]
    [InlineData("C x32010 032010", "Am x02210 002310", 5, 3, 3, "1 2", 2)]
    [InlineData("E 022100 023100", "Am x02210 002310", 4, 2, 2, "", 2)]
    [InlineData("G 320003 210003", "Em 022000 023000", 8, 3, 3, "", 2)]
    // The index finger lies flat in F and stands on its tip in C, so it does not stay.
    [InlineData("F 133211 134211", "C x32010 032010", 4, 2, 2, "3", 3)]
    public void StringsAndFingersAreCompared(string from, string to, int total, int leap, int kept, string fingers, int least)
    {
        var change = ShapeChange.Between(Use(from), Use(to))!;
        Assert.Equal(total, change.TotalMotion);
        Assert.Equal(leap, change.LargestLeap);
        Assert.Equal(kept, change.StringsKept);
        Assert.Equal(fingers, string.Join(' ', change.FingersKept));
        Assert.Equal(least, change.LeastMotion);
    }

    [Fact]
    public void BackIsAsFarAsThere() =>
        Gen.Select(AnyShape, AnyShape).Sample((a, b) =>
        {
            var (there, back) = (ShapeChange.Between(Named("C", a), Named("G", b)), ShapeChange.Between(Named("G", b), Named("C", a)));
            return there is null ? back is null
                : there.TotalMotion == back!.TotalMotion && there.StringsKept == back.StringsKept && there.Slide == -back.Slide
                && there.FingersKept.SequenceEqual(back.FingersKept);
        });

    [Theory]
    [InlineData("F 133211", "G 355433", 2)]
    [InlineData("D x57775", "C x35553", -2)]
    [InlineData("E 022100", "F#add11 044300", 2)]
    [InlineData("E 022100", "F 133211", null)]
    [InlineData("C x32010", "G 320003", null)]
    public void ASlideIsTheWholeHand(string from, string to, int? frets) => Assert.Equal(frets, ShapeChange.Between(Use(from), Use(to))!.Slide);

    // Four shapes under ring and little finger on the two high strings, which keep D and G, over the open third string: common practice.
    [Fact]
    public void HeldStringsAreFound()
    {
        var song = AnySong.Of("""
            key G major
            shape G      320033
            shape Cadd9  x32033
            shape Em7    022033
            shape A7sus4 x02033
            section Verse
            chords | G | Cadd9 | Em7 | A7sus4 |
            """);
        var remark = Assert.Single(HandRemarks.Of(song), r => r.Kind == RemarkKind.StringHeld);
        Assert.Equal("Three strings keep their notes, G and D, through every chord of the song.", remark.Sentence);
        Assert.Empty(remark.Places); // it holds of the whole song
    }

    [Fact]
    public void AHeldStringStopsWhereItMoves()
    {
        var song = AnySong.Of("""
            shape C  x32010
            shape Am x02210
            shape Am7 x02010
            shape Em 022000
            shape F  133211
            section Verse
            chords | F | C | Am | Em | Am7 | F |
            """);
        var remark = Assert.Single(HandRemarks.Of(song), r => r.Kind == RemarkKind.StringHeld);
        Assert.Equal("Two strings keep their notes, E, through C, A minor, E minor and A minor seven.", remark.Sentence);
        Assert.Equal([2, 3, 4, 5], remark.Places.Select(p => p.Bar));
    }

    // A at the fifth fret costs a full barre; the open A (x02220, common practice) has the same notes and bass.
    [Fact]
    public void AnEasierShapeIsOfferedWhereItIsClearlyEasier()
    {
        const string Rest = "\nshape E 022100\nshape D xx0232\nsection Verse\nchords | A | D | E | A |\n";
        var easier = Assert.Single(EasierShape.In(AnySong.Of("key A major\nshape A 577655" + Rest)));
        Assert.Equal("x02220", easier.Easier.Shape.WithoutFingers().ToString());
        Assert.True(easier.EasierCost < easier.Cost);
        Assert.Empty(EasierShape.In(AnySong.Of("key A major\nshape A x02220" + Rest)));
    }

    // Under Cadd9 and A7sus4, which hold ring and little finger at the third fret of the two high strings, players hold G as 320033 (common practice):
    // from x32033 to 320003 strings 5 to 1 move 1 2 0 3 0, to 320033 only 1 2 0 0 0.
    [Fact]
    public void ASmootherShapeIsOffered()
    {
        const string Rest = "\nshape Cadd9 x32033\nsection Verse\nchords | Cadd9 | G | Cadd9 | G | Cadd9 |\n";
        var smoother = Assert.Single(SmootherShape.In(AnySong.Of("key G major\nshape G 320003" + Rest)));
        Assert.Equal("320033", smoother.Smoother.Shape.WithoutFingers().ToString());
        Assert.Equal((12, 6), (smoother.Motion, smoother.SmootherMotion));
        Assert.Empty(SmootherShape.In(AnySong.Of("key G major\nshape G 320033" + Rest)));
    }

    private static Gen<Shape> AnyShape => Gen.Int[-1, 4].Array[6].Select(frets => Shape.Of([.. frets.Select(f => f < 0 ? (int?)null : f)]));

    private static ChordUse Named(string chord, Shape shape) => new(ChordSymbol.Read(chord), chord, shape);

    private static ChordUse Use(string text)
    {
        var words = text.Split(' ');
        var shape = Shape.Parse(words[1]);
        return new(ChordSymbol.Read(words[0]), words[0], words.Length > 2 ? shape.WithFingers([.. words[2].Select(c => c - '0')]) : shape);
    }
}
