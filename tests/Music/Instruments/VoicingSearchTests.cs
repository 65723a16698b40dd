using CsCheck;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Instruments;

public class VoicingSearchTests
{
    private static readonly ChordQuality[] Qualities =
    [
        ChordQuality.Major, ChordQuality.Minor, ChordQuality.Dominant7, ChordQuality.Minor7, ChordQuality.Major7,
        ChordQuality.Diminished7, ChordQuality.SuspendedFourth, ChordQuality.AddedNinth, ChordQuality.Power,
    ];

    private static readonly Gen<Chord> Chords =
        Gen.Select(Gen.Int[-5, 6], Gen.Int[0, Qualities.Length - 1]).Select((fifths, i) => Chord.Of(PitchName.FromFifths(fifths), Qualities[i]));

    private static readonly Gen<Tuning> Tunings = Gen.Int[0, TuningCatalogue.All.Length - 1].Select(i => TuningCatalogue.All[i].Tuning);

    public static TheoryData<string, string, string> OpenPosition => OpenPositionShapes.All;

    // The shapes that every player learns first come near the top for their chord.
    /// <summary>Shapes that teaching material prints (data/common-shapes.tsv names its source): what a player is offered first is one that all learn.</summary>
    [Theory]
    [InlineData("F")]
    [InlineData("Cm")]
    [InlineData("Gm")]
    [InlineData("Bm")]
    [InlineData("Bb")]
    [InlineData("C#m")]
    [InlineData("F#m")]
    [InlineData("C7")]
    public void AShapeThatAllLearnComesFirst(string symbol)
    {
        var first = VoicingSearch.Find(ChordSymbol.Read(symbol), Tuning.Standard, Capo.None)[0].Shape;
        Assert.True(CommonShapes.Has(first, Tuning.Standard, Capo.None), $"{first} comes first.");
    }

    [Theory]
    [MemberData(nameof(OpenPosition))]
    public void OpenPositionShapesAreAmongTheFirstSix(string symbol, string frets, string pitches)
    {
        var chord = ChordSymbol.Read(symbol);
        var found = VoicingSearch.Find(chord, Tuning.Standard, Capo.None);
        Assert.Contains(frets, found.Take(6).Select(v => v.Shape.ToString()));
        Assert.Equal(pitches, string.Join(' ', found.First(v => v.Shape.ToString() == frets).Shape.Pitches(Tuning.Standard, Capo.None, chord)));
    }

    // First shapes for each chord in the ukulele table of @tombatossals/chords-db 0.5.1 (npm, MIT licence).
    [Theory]
    [InlineData("C", "0003")]
    [InlineData("F", "2010")]
    [InlineData("G", "0232")]
    [InlineData("Am", "2000")]
    [InlineData("Dm", "2210")]
    [InlineData("A", "2100")]
    [InlineData("D", "2220")]
    [InlineData("G7", "0212")]
    [InlineData("C7", "0001")]
    [InlineData("A7", "0100")]
    public void UkuleleShapesComeFirst(string symbol, string frets)
    {
        var ukulele = TuningCatalogue.Find("standard", "ukulele")!.Tuning;
        var best = VoicingSearch.Find(ChordSymbol.Read(symbol), ukulele, Capo.None)[0].Shape;
        Assert.Equal(frets, best.ToString());
    }

    // Common practice: an open tuning strummed open is its chord; a tone's barre up the neck is the chord a tone higher.
    [Theory]
    [InlineData("open D", "D", "000000", 1)]
    [InlineData("open G", "G", "x00000", 1)]
    [InlineData("open C", "C", "000000", 1)]
    [InlineData("open E", "E", "000000", 1)]
    [InlineData("open D", "G", "555555", 3)]
    [InlineData("open D", "A", "777777", 3)]
    [InlineData("D A D G A D", "Dsus4", "000000", 1)]
    public void OpenTuningsPlayThemselves(string tuning, string symbol, string frets, int within)
    {
        var found = VoicingSearch.Find(ChordSymbol.Read(symbol), TuningCatalogue.Find(tuning)!.Tuning, Capo.None);
        Assert.Contains(frets, found.Take(within).Select(v => v.Shape.ToString()));
    }

    [Fact]
    public void EveryVoicingSoundsOnlyItsChordAndCanBePlayed() =>
        Gen.Select(Chords, Tunings, Gen.Int[0, 7]).Sample((chord, tuning, fret) =>
        {
            var capo = Capo.At(fret);
            var found = VoicingSearch.Find(chord, tuning, capo);
            Assert.All(found, v =>
            {
                Assert.Subset(chord.PitchClasses.ToHashSet(), v.Shape.PitchClasses(tuning, capo).ToHashSet());
                Assert.True(FingeringSolver.Check(v.Shape, capo, Hand.On(tuning)).IsPlayable);
                Assert.Equal(v.Cost.Total, v.Cost.Parts.Sum(p => p.Value), 9);
            });
            Assert.All(found.Zip(found.Skip(1)), pair => Assert.True(pair.First.Cost.Total <= pair.Second.Cost.Total + 1e-8));
            Assert.Equal(found.Length, found.Select(v => v.Shape.ToString()).Distinct().Count());
        }, iter: 60);

    // A capo n frets up sounds the same shape n semitones higher, and no stretch under it is wider than at the nut.
    [Fact]
    public void ACapoLeavesTheShapesAndMovesTheChord() =>
        Gen.Select(Chords, Gen.Int[1, 5]).Sample((chord, fret) =>
        {
            var options = new VoicingOptions { MaxFret = 4, Results = 5 };
            var higher = Chord.Of(PitchName.FromPitchClass((chord.Root.PitchClass + fret) % 12), chord.Quality);
            var bare = VoicingSearch.Find(chord, Tuning.Standard, Capo.None, options with { Results = 5 });
            var capoed = VoicingSearch.Find(higher, Tuning.Standard, Capo.At(fret), options with { Results = 10_000 });
            Assert.Subset(capoed.Select(v => v.Shape.ToString()).ToHashSet(), bare.Select(v => v.Shape.ToString()).ToHashSet());
        }, iter: 20);

    [Fact]
    public void TheBassIsExactUnlessAskedOtherwise()
    {
        var chord = ChordSymbol.Read("D/F#");
        Assert.All(VoicingSearch.Find(chord, Tuning.Standard, Capo.None), v => Assert.Equal("F#", v.Shape.Bass(Tuning.Standard)!.Value.Name.ToString()));
        var free = VoicingSearch.Find(ChordSymbol.Read("D"), Tuning.Standard, Capo.None, new VoicingOptions { Bass = BassRule.Free, Results = 40 });
        Assert.Contains(free, v => v.Shape.Bass(Tuning.Standard)!.Value.Name.ToString() != "D");
    }

    [Fact]
    public void AForeignBassStaysInTheBass()
    {
        var found = VoicingSearch.Find(Chord.Of(PitchName.Parse("C"), ChordQuality.Major, PitchName.Parse("D")), Tuning.Standard, Capo.None);
        Assert.All(found, v => Assert.Equal("D", v.Shape.Bass(Tuning.Standard)!.Value.Name.ToString()));
        Assert.All(found, v => Assert.Superset(new HashSet<int> { 0, 2, 4 }, v.Shape.PitchClasses(Tuning.Standard).ToHashSet()));
    }

    [Fact]
    public void NothingIsLeftOutWhenNothingMayBe()
    {
        var chord = ChordSymbol.Read("G7");
        var found = VoicingSearch.Find(chord, Tuning.Standard, Capo.None, new VoicingOptions { MayOmit = [], Results = 50 });
        Assert.Equal(50, found.Length);
        Assert.All(found, v => Assert.Equal(chord.PitchClasses, v.Shape.PitchClasses(Tuning.Standard)));
    }

    [Fact]
    public void OptionsBoundFretsSpansStringsAndHands()
    {
        var options = new VoicingOptions
        {
            MaxFret = 5, MaxSpan = 2, MinStrings = 5, MaxMutedInner = 0, UnpressedStrings = [5], Results = 30,
            Hand = Hand.Usual with { LongestReach = Length.FromMillimetres(70) },
        };
        var found = VoicingSearch.Find(ChordSymbol.Read("G"), Tuning.Standard, Capo.None, options);
        Assert.NotEmpty(found);
        Assert.All(found, v =>
        {
            Assert.True(v.Shape.LastFret <= 5 && v.Shape.Span <= 2 && v.Shape.SoundingStrings >= 5);
            Assert.Empty(v.Shape.MutedInnerStrings);
            Assert.True(v.Shape.Frets[5] is null or 0);
        });
    }

    [Fact]
    public void MovementCountsFromTheShapeBefore()
    {
        var before = Shape.Parse("x.12.14.14.13.12");
        var chord = ChordSymbol.Read("D");
        var rested = VoicingSearch.Find(chord, Tuning.Standard, Capo.None);
        var moved = VoicingSearch.Find(chord, Tuning.Standard, Capo.None, null, before);
        Assert.All(rested, v => Assert.Equal(0, v.Cost.Movement));
        Assert.True(moved.Average(v => v.Shape.FirstFret ?? 0) > rested.Average(v => v.Shape.FirstFret ?? 0));
        var am = Shape.Parse("x02210");
        Assert.Equal(0, VoicingSearch.Find(ChordSymbol.Read("Am"), Tuning.Standard, Capo.None, null, am)
            .Single(v => v.Shape.ToString() == "x02210").Cost.Movement);
    }

    // Common practice: with strings A, D and G stopped at fret 2, the open strings sound E B E A B E.
    [Fact]
    public void PartialCaposAreSearchedToo()
    {
        var capo = Capo.At(2, 1, 2, 3);
        var found = VoicingSearch.Find(ChordSymbol.Read("Esus4"), Tuning.Standard, capo);
        Assert.Equal("000000", found[0].Shape.ToString());
        Assert.All(VoicingSearch.Find(ChordSymbol.Read("E"), Tuning.Standard, capo), v =>
        {
            Assert.Equal([4, 8, 11], v.Shape.PitchClasses(Tuning.Standard, capo));
            Assert.All(Enumerable.Range(0, 6), i => Assert.True(v.Shape.Frets[i] is null or 0 || v.Shape.Frets[i] + capo.Raises(i) > 2));
        });
    }

    [Fact]
    public void NoChordHasNoShape() => Assert.Empty(VoicingSearch.Find(Chord.None, Tuning.Standard, Capo.None));
}
