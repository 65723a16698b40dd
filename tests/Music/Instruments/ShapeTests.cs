using CsCheck;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Instruments;

public class ShapeTests
{
    private static readonly Gen<Shape> Shapes =
        Gen.Int[-1, 24].Array[1, 12].Select(frets => Shape.Of([.. frets.Select(f => f < 0 ? (int?)null : f)]));

    public static TheoryData<string, string, string> OpenPosition => OpenPositionShapes.All;

    [Theory]
    [MemberData(nameof(OpenPosition))]
    public void OpenPositionShapesSoundTheirPitches(string symbol, string frets, string pitches)
    {
        var chord = ChordSymbol.Read(symbol);
        Assert.Equal(pitches, string.Join(' ', Shape.Parse(frets).Pitches(Tuning.Standard, Capo.None, chord)));
    }

    [Theory]
    [InlineData("x02210", 1, 2, 1)]
    [InlineData("320003", 2, 3, 1)]
    [InlineData("000000", null, null, 0)]
    [InlineData("x.10.12.12.11.10", 10, 12, 2)]
    public void FirstAndLastFretLeaveOpenStringsOut(string text, int? first, int? last, int span)
    {
        var shape = Shape.Parse(text);
        Assert.Equal((first, last, span), (shape.FirstFret, shape.LastFret, shape.Span));
    }

    [Theory]
    [InlineData("x02210", "")]
    [InlineData("3x0003", "1")]
    [InlineData("1x2x3x", "1 3")]
    [InlineData("xxxxxx", "")]
    public void MutedStringsBetweenSoundingOnesAreInner(string text, string indices) =>
        Assert.Equal(indices, string.Join(' ', Shape.Parse(text).MutedInnerStrings));

    [Fact]
    public void EveryShapeSurvivesWritingAndReading() => Shapes.Sample(shape => Shape.Parse(shape.ToString()).Equals(shape));

    [Fact]
    public void ACapoRaisesAShapeByItsFret() =>
        Gen.Select(Gen.Int[-1, 15].Array[6], Gen.Int[0, 12]).Sample((frets, capo) =>
        {
            var shape = Shape.Of([.. frets.Select(f => f < 0 ? (int?)null : f)]);
            var bare = shape.Pitches(Tuning.Standard).Select(p => p.Midi + capo);
            return shape.Pitches(Tuning.Standard, Capo.At(capo)).Select(p => p.Midi).SequenceEqual(bare);
        });

    // Common practice: a G shape with a capo on 2 sounds A, a C shape on 4 sounds E.
    [Theory]
    [InlineData("320003", 2, "A C# E")]
    [InlineData("x32010", 4, "E G# B")]
    public void CapoedShapesSoundTheHigherChord(string shape, int capo, string names) =>
        Assert.Equal(names.Split(' ').ToHashSet(), Shape.Parse(shape).NoteNames(Tuning.Standard, Capo.At(capo)).Select(n => n.ToString()).ToHashSet());

    // A ukulele's fourth string (common practice: G4 C4 E4 A4) sounds above its third, so the bass of 0003 is the C.
    [Fact]
    public void TheBassIsTheLowestPitchWhicheverStringHasIt() =>
        Assert.Equal("C4", Shape.Parse("0003").Bass(Tuning.Parse("G4 C4 E4 A4")).ToString());

    [Fact]
    public void AShapeOfAnotherInstrumentIsRefused() =>
        Assert.Throws<ArgumentException>(() => Shape.Parse("0003").Pitches(Tuning.Standard));

    [Theory]
    [InlineData(5)]
    [InlineData(-1)]
    public void OnlyFourFingersFret(int finger) =>
        Assert.Throws<ArgumentException>(() => Shape.Parse("x1").WithFingers(0, finger));
}
