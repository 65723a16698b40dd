using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Instruments;

public class FrettedInstrumentTests
{
    [Fact]
    public void EveryInstrumentWithATuningIsThereOnce()
    {
        Assert.Equal(TuningCatalogue.Instruments.Order(), FrettedInstrument.All.Select(i => i.Name).Order());
        Assert.All(FrettedInstrument.All, i =>
        {
            Assert.InRange(i.Frets, 12, 30);
            Assert.InRange(i.Scale.Millimetres, 300, 1000);
            Assert.Contains(i.Source, new[] { "CP", "M" });
        });
        Assert.Equal(FrettedInstrument.All.Sum(i => i.Names.Count()), FrettedInstrument.All.SelectMany(i => i.Names)
            .Distinct(StringComparer.OrdinalIgnoreCase).Count());
    }

    // Shapes that every beginner's chart has (common practice): C on a ukulele, the open chord of a banjo in open G, G on a mandolin and on a
    // baritone ukulele, which is a guitar's top four strings.
    [Theory]
    [InlineData("ukulele", "C", "0003")]
    [InlineData("ukulele", "F", "2010")]
    [InlineData("ukulele", "Am", "2000")]
    [InlineData("ukulele", "G7", "0212")]
    [InlineData("five-string banjo", "G", "00000")]
    [InlineData("five-string banjo", "C", "02012")]
    [InlineData("mandolin", "G", "0023")]
    [InlineData("mandolin", "D", "2002")]
    [InlineData("baritone ukulele", "G", "0003")]
    public void AChartsShapeIsFound(string instrument, string chord, string shape)
    {
        var tuning = TuningCatalogue.All.First(t => t.Instrument == instrument).Tuning;
        var options = VoicingOptions.On(FrettedInstrument.Find(instrument)!, tuning) with { Results = 40 };
        var found = VoicingSearch.Find(ChordSymbol.Read(chord), tuning, Capo.None, options).Select(v => v.Shape.ToString());
        Assert.Contains(shape, found);
    }

    // The same shapes serve a ukulele with a low fourth string (common practice), though C then has G in the bass.
    [Theory]
    [InlineData("C", "0003")]
    [InlineData("F", "2010")]
    [InlineData("G7", "0212")]
    public void ALowFourthStringChangesNoShape(string chord, string shape)
    {
        var ukulele = FrettedInstrument.Find("uke")!;
        var tuning = TuningCatalogue.Find("low G", "ukulele")!.Tuning;
        Assert.Equal(shape, VoicingSearch.Find(ChordSymbol.Read(chord), tuning, Capo.None, VoicingOptions.On(ukulele, tuning))[0].Shape.ToString());
    }

    // A five-string banjo's short string starts at the fifth fret and is not pressed in chords (common practice).
    [Fact]
    public void AShortStringIsNeverPressed()
    {
        var (banjo, tuning) = (FrettedInstrument.Find("banjo")!, TuningCatalogue.Find("open G", "five-string banjo")!.Tuning);
        Assert.Equal(new ShortString(5, 5), Assert.Single(banjo.ShortStrings));
        var found = VoicingSearch.Find(ChordSymbol.Read("Am"), tuning, Capo.None, VoicingOptions.On(banjo, tuning) with { Results = 60 });
        Assert.NotEmpty(found);
        Assert.All(found, v => Assert.True(v.Shape.Frets[0] is null or 0, v.Shape.ToString()));
    }

    // Worked by hand: a made-up instrument.
    [Fact]
    public void AnyTableIsAnInstrument()
    {
        var made = Assert.Single(FrettedInstrument.ReadTable("# one\ncigar box\tbox;three-string box\t18\t640\t3:7\tany\t2\tCP\n"));
        Assert.Equal(("cigar box", 18, Length.FromMillimetres(640), 2), (made.Name, made.Frets, made.Hand.Scale, made.Hand.FretsAFinger));
        var options = VoicingOptions.On(made, Tuning.Parse("G2 D3 G3"));
        Assert.Equal((18, 0, BassRule.Free), (options.NeckFrets, Assert.Single(options.UnpressedStrings), options.Bass));
    }
}
