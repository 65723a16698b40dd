using Harkbook.Music.Analysis.Layers;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Analysis.Layers;

public class LayerPairTests
{
    // Am (A E A C E) with C (C E G C E): A C E G is Am7 (chord spellings of "Integrated Music Theory 2018–19", 3c); C and E are shared.
    [Fact]
    public void TwoShapesMakeAMinorSeventh()
    {
        var pair = LayerPair.Of(null, Guitar(Layer.Strummed, "x02210"), Guitar(Layer.SecondGuitar, "x32010"));
        Assert.Equal("Am7", ChordSymbol.Write(pair.Chord.Name));
        Assert.Equal(["C", "E"], pair.Chord.Shared.Select(n => n.ToString()).Order());
        Assert.Empty(pair.Clashes);
    }

    // Draw 4 to 6 on a C harmonica are D5 F5 A5 (OEIS A291810); over G they are 5 b7 9.
    [Fact]
    public void AShapeAndABreathMakeANinth()
    {
        var breath = LayerPair.OfBreath(Harmonica.Richter(PitchName.Parse("C")).Together(Breath.Draw, 4, 6));
        var pair = LayerPair.Of(ChordSymbol.Read("G"), Guitar(Layer.Strummed, "320003"), breath);
        Assert.Equal("G9", ChordSymbol.Write(pair.Chord.Name));
        Assert.Equal("Dm", ChordSymbol.Write(pair.Chord.Upper!));
        Assert.Equal(["D5 draw 4", "F5 draw 5", "A5 draw 6"], pair.Notes.TakeLast(3).Select(n => $"{n.Pitch} {n.Played}"));
        Assert.Empty(pair.Clashes);
    }

    // E major's G sharp with G major's G, and B with C: a minor second or ninth, by counting semitones.
    [Fact]
    public void ClashesAreThoseBetweenTheParts()
    {
        var pair = LayerPair.Of(ChordSymbol.Read("E"), Guitar(Layer.Strummed, "022100"), Guitar(Layer.SecondGuitar, "x32010"));
        Assert.All(pair.Clashes, c => Assert.NotEqual(c.Lower.Layer, c.Higher.Layer));
        Assert.Contains(pair.Clashes, c => c is { Kind: ClashKind.Semitone, Lower.Pitch.Midi: 59, Higher.Pitch.Midi: 60 });
        Assert.Contains(pair.Clashes, c => c.Kind == ClashKind.CrossRelation && c.Lower.Pitch.Name.Letter == 'G');
    }

    [Fact]
    public void APartPlayedTwiceAddsNoRoughness()
    {
        var pair = LayerPair.Of(null, Guitar(Layer.Strummed, "x32010"), Guitar(Layer.SecondGuitar, "x32010"));
        Assert.Equal(0, pair.Between, 9);
        Assert.Equal("C", ChordSymbol.Write(pair.Chord.Name));
    }

    private static IReadOnlyCollection<LayerNote> Guitar(Layer layer, string shape) => LayerPair.OfShape(layer, Shape.Parse(shape), Tuning.Standard, default);
}
