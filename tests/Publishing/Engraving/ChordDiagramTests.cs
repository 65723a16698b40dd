using CsCheck;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Diagrams;

namespace Harkbook.Publishing.Tests.Engraving;

public class ChordDiagramTests
{
    private static ChordDiagramSubject Subject(string name, string shape, Tuning? tuning = null, Capo capo = default, Standing? standing = null) =>
        new(Shape.Parse(shape), name, tuning ?? Tuning.Standard, capo, standing ?? Standing.Decided);

    private static readonly Gen<ChordDiagramSubject> Subjects =
        from strings in Gen.Int[1, 12]
        from frets in Gen.Int[-1, 20].Array[strings]
        from pitches in Gen.Int[28, 76].Array[strings]
        from fret in Gen.Int[0, 12]
        from partial in Gen.Bool
        from lowest in Gen.Int[0, strings - 1]
        from name in Gen.OneOf("D", "F#m7b5/C#", "Ebmaj7#11", "N.C.", "C#m(maj7)@very high", "", "G@a", "strange name")
        from heard in Gen.Bool
        select new ChordDiagramSubject(
            Shape.Of([.. frets.Select(f => f < 0 ? (int?)null : f)]), name, Tuning.Of(pitches.Select(p => Pitch.FromMidi(p))),
            partial ? Capo.At(fret, lowest) : Capo.At(fret), heard ? Standing.Heard(0.5) : Standing.Decided);

    private static readonly Gen<ChordDiagramStyle> Styles =
        from gap in Gen.Double[6, 60]
        from direction in Gen.Enum<NeckDirection>()
        from foot in Gen.Int[0, 3]
        from fewest in Gen.Int[3, 6]
        from fingers in Gen.Bool
        select new ChordDiagramStyle(gap, direction, (StringFoot)foot, fewest, fingers);

    [Fact]
    public void NothingIsCutOrCoveredInAnyDiagram() =>
        Gen.Select(Subjects, Styles).Sample((subject, style) => Layout.IsSound(ChordDiagram.Engrave(subject, style)), iter: 2000, seed: "0000KhQ8ZQk4");

    [Fact]
    public void DotsNeverTouch() => Subjects.Sample(subject =>
    {
        var dots = ChordDiagram.Engrave(subject, ChordDiagramStyle.Print).Flattened().Where(m => m.Mark is CircleMark).Select(m => m.Bounds).ToArray();
        for (var i = 0; i < dots.Length; i++)
            Assert.DoesNotContain(dots.Skip(i + 1), d => d.Overlaps(dots[i]));
    }, iter: 500, seed: "0000KhQ8ZQk4");

    [Fact]
    public void EveryStringShowsWhatItDoes()
    {
        var subject = Subject("C", "x32010");
        var marks = ChordDiagram.Engrave(subject with { Shape = subject.Shape.WithFingers(0, 3, 2, 0, 1, 0) }, ChordDiagramStyle.Print).Marks;
        Assert.Equal(3, marks.OfType<CircleMark>().Count(c => c.Pen.Fill == Tint.Hand));
        Assert.Equal(2, marks.OfType<CircleMark>().Count(c => c.Pen.Fill is null));
        Assert.Equal(["E", "A", "D", "G", "B", "E"], Layout.Texts(ChordDiagram.Engrave(Subject("", "x32010"), ChordDiagramStyle.Print))[^6..]);
    }

    // Decided fingers stand on full dots and guessed ones don't: where none are given, where the shape was heard, and on a barre.
    [Theory]
    [InlineData("x32010", "032010", false, 3)]
    [InlineData("x32010", "", false, 0)]
    [InlineData("x32010", "032010", true, 0)]
    [InlineData("133211", "134211", false, 4)]
    [InlineData("133211", "", false, 0)]
    public void GuessedFingersLookUnlikeDecidedOnes(string frets, string fingers, bool heard, int full)
    {
        var subject = Subject("C", frets, standing: heard ? Standing.Heard(0.7) : Standing.Decided);
        var marks = ChordDiagram.Engrave(subject with { Shape = subject.Shape.WithFingers([.. fingers.Select(c => c - '0')]) }, ChordDiagramStyle.Print).Marks;
        Assert.Equal(full, marks.Count(m => m is CircleMark { Pen.Fill: Tint.Hand } or RectMark { Pen.Fill: Tint.Hand }));
    }

    // Common practice (standard open C): ring finger on A3, middle on D2, index on B1, from the low side.
    [Fact]
    public void FingersAreSuggestedWhereNoneAreGiven()
    {
        var digits = Layout.Texts(ChordDiagram.Engrave(Subject("", "x32010"), ChordDiagramStyle.Print))[..3];
        Assert.Equal(["3", "2", "1"], digits);
    }

    [Fact]
    public void ABarreIsOneBarFromStringToString()
    {
        var drawing = ChordDiagram.Engrave(Subject("F", "133211") with { Shape = Shape.Parse("133211").WithFingers(1, 3, 4, 2, 1, 1) },
            ChordDiagramStyle.Print);
        var bar = Assert.Single(drawing.Marks.OfType<RectMark>(), r => r.Pen.Fill == Tint.Hand);
        Assert.Equal(5 * ChordDiagramStyle.Print.StringGap, bar.Box.Width - bar.Box.Height, 1e-9);
        Assert.Equal(3, drawing.Marks.OfType<CircleMark>().Count());
    }

    [Theory]
    [InlineData("133211", "")]
    [InlineData("x.9.10.9.x.x", "9")]
    [InlineData("x.36.35.34.33.x", "33")]
    public void HighShapesNameTheirFirstFret(string shape, string expected)
    {
        var texts = Layout.Texts(ChordDiagram.Engrave(Subject("", shape), ChordDiagramStyle.Print with { ShowFingers = false }));
        Assert.Equal(expected, string.Concat(texts.Where(t => t.All(char.IsAsciiDigit))));
    }

    // Open D altered against standard on strings 6, 3, 2, 1 (common practice): those names are strong.
    [Fact]
    public void AlteredStringsAreNamedStrongly()
    {
        var drawing = ChordDiagram.Engrave(Subject("", "000000", Tuning.Parse("D2 A2 D3 F#3 A3 D4")), ChordDiagramStyle.Print);
        Assert.Equal(["D", "F♯", "A", "D"], drawing.Marks.OfType<TextMark>().Where(t => t.Face == Face.NarrowStrong).Select(t => t.Text));
    }

    // Capo n raises every string by n semitones (definition): open D under capo 2 sounds E B E G# B E.
    [Fact]
    public void SoundingNotesCountTheCapo()
    {
        var style = ChordDiagramStyle.Print with { Foot = StringFoot.SoundingNotes };
        var drawing = ChordDiagram.Engrave(Subject("", "000000", Tuning.Parse("D2 A2 D3 F#3 A3 D4"), Capo.At(2)), style);
        Assert.Equal(["E", "B", "E", "G♯", "B", "E", "capo 2"], Layout.Texts(drawing));
    }

    [Fact]
    public void HeardShapesHaveDotsUnderTheirName()
    {
        Assert.Contains(ChordDiagram.Engrave(Subject("D", "xx0232", standing: Standing.Heard(0.4)), ChordDiagramStyle.Print).Marks,
            m => m is LineMark { Pen.Stroke: Tint.Heard });
        Assert.DoesNotContain(ChordDiagram.Engrave(Subject("D", "xx0232"), ChordDiagramStyle.Print).Marks, m => m is LineMark { Pen.Stroke: Tint.Heard });
    }

    [Fact]
    public void AShapeOfAnotherInstrumentIsRefused() =>
        Assert.Throws<ArgumentException>(() => ChordDiagram.Engrave(Subject("C", "0003"), ChordDiagramStyle.Print));

    [Theory]
    [InlineData("open-d-capo.svg", "G/D", "020120", "D2 A2 D3 F#3 A3 D4", 2, NeckDirection.Upright)]
    [InlineData("barre-level.svg", "F#m7", "242222", "E2 A2 D3 G3 B3 E4", 0, NeckDirection.Level)]
    [InlineData("four-strings.svg", "G", "0232", "G4 C4 E4 A4", 0, NeckDirection.Upright)]
    public void DiagramsLookAsApproved(string file, string name, string shape, string tuning, int capo, NeckDirection direction)
    {
        var drawing = ChordDiagram.Engrave(Subject(name, shape, Tuning.Parse(tuning), Capo.At(capo), Standing.Heard(0.7)),
            ChordDiagramStyle.Print with { Direction = direction });
        Golden.Check(file, SvgWriter.Write(drawing, Palette.Paper));
    }

    // A five-string banjo's short string starts at the fifth fret (common practice): before it there is no neck under it.
    [Theory]
    [InlineData("G4 D3 G3 B3 D4", "02012", 4, 1)]
    [InlineData("G4 D3 G3 B3 D4", "0.9.9.9.9", 5, 0)]
    [InlineData("G4 C4 E4 A4", "0003", 4, 0)]
    [InlineData("E2 A2 D3 G3 B3 E4", "022000", 6, 0)]
    public void AShortStringIsDrawnFromWhereItStarts(string tuning, string shape, int strings, int hinted)
    {
        var drawing = ChordDiagram.Engrave(new(Shape.Parse(shape), "G", Tuning.Parse(tuning), Capo.None, Standing.Decided), ChordDiagramStyle.Print);
        var upright = drawing.Flattened().Select(m => m.Mark).OfType<LineMark>().Where(l => l.From.X == l.To.X).ToArray();
        Assert.Equal((strings, hinted), (upright.Count(l => l.Pen.Stroke == Tint.Line), upright.Count(l => l.Pen.Stroke == Tint.Faint)));
        Layout.IsSound(drawing);
    }
}
