using Harkbook.Listening.Evidence;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing;

/// <summary>Shapes of a chord at a place, where the pitches that sound are given. Shapes and their pitches are common practice.</summary>
public class ShapeOffersTests
{
    private static readonly Seconds Hop = Seconds.FromSeconds(0.1);

    /// <summary>E as 022100 (E2 B2 E3 G#3 B3 E4) and as 779997 (B2 E3 B3 E4 G#4 B4): the one whose pitches sound comes first.</summary>
    [Theory]
    [InlineData("022100")]
    [InlineData("x76454")]
    public void WhatSoundsComesFirst(string played)
    {
        var shape = Shape.Parse(played);
        var offered = ShapeOffers.For(Sounding(shape, from: 0, to: 10), default, Hop * 9, ChordSymbol.Read("E"), Tuning.Standard, Capo.None, before: null);

        Assert.Equal(played, $"{offered[0].Voicing.Shape.WithoutFingers()}");
        Assert.Equal(1, offered[0].Match!.Value, 2);
        Assert.All(offered[0].Strings.Where((_, s) => shape.Frets[s] is not null), s => Assert.Equal(1, s!.Value, 2));
    }

    [Fact]
    public void WhatSoundsElsewhereDoesNotCount()
    {
        var notes = Sounding(Shape.Parse("x76454"), from: 20, to: 30);
        var offered = ShapeOffers.For(notes, default, Hop * 9, ChordSymbol.Read("E"), Tuning.Standard, Capo.None, before: null);
        Assert.All(offered, o => Assert.Equal(0, o.Match));
    }

    [Fact]
    public void WithoutARecordingTheHandAloneDecides()
    {
        var offered = ShapeOffers.For(NotePosteriorgram.None, default, Hop, ChordSymbol.Read("E"), Tuning.Standard, Capo.None, before: null);
        Assert.Null(offered[0].Match);
        Assert.Equal("022100", $"{offered[0].Voicing.Shape.WithoutFingers()}");
    }

    private static NotePosteriorgram Sounding(Shape shape, int from, int to)
    {
        var (sounding, onset) = (new PosteriorMatrix(40, 61), new PosteriorMatrix(40, 61));
        foreach (var pitch in shape.Pitches(Tuning.Standard))
        {
            for (var frame = from; frame < to; frame++)
                sounding[frame, pitch.Midi - 36] = 1;
        }
        return new(Hop, 36, sounding, onset);
    }
}
