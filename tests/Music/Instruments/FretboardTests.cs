using CsCheck;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Instruments;

public class FretboardTests
{
    private static readonly Gen<Tuning> Tunings =
        Gen.Int[30, 70].Array[1, 12].Select(midi => Tuning.Of(midi.Select(m => Pitch.FromMidi(m))));

    // The definition L(1 − 2^(−n/12)), worked by hand for two usual scales; the twelfth fret halves the string.
    [Theory]
    [InlineData(1, 36.482, 1.431)]
    [InlineData(3, 103.417, 4.057)]
    [InlineData(7, 216.177, 8.481)]
    [InlineData(12, 325.000, 12.750)]
    [InlineData(24, 487.500, 19.125)]
    public void FretsStandWhereEqualTemperamentPutsThem(int fret, double millimetres, double inches)
    {
        Assert.Equal(millimetres, FretSpacing.FromNut(Length.FromMillimetres(650), fret).Millimetres, 0.0005);
        Assert.Equal(inches, FretSpacing.FromNut(Length.FromInches(25.5), fret).Inches, 0.0005);
    }

    // Same definition: a reach of four frets narrows up the neck.
    [Theory]
    [InlineData(1, 5, 126.6)]
    [InlineData(5, 9, 100.5)]
    [InlineData(12, 16, 67.0)]
    public void FourFretsNarrowUpTheNeck(int from, int to, double millimetres) =>
        Assert.Equal(millimetres, FretSpacing.Between(Length.FromMillimetres(650), from, to).Millimetres, 0.05);

    // Counted from the definition of standard tuning: places, distinct pitches, the highest, and how many pitches have 1, 2 … 6 places.
    [Theory]
    [InlineData(12, 78, 37, "E5", new[] { 10, 13, 14, 0, 0, 0 })]
    [InlineData(19, 120, 44, "B5", new[] { 10, 9, 10, 13, 2, 0 })]
    [InlineData(20, 126, 45, "C6", new[] { 10, 9, 10, 12, 4, 0 })]
    [InlineData(22, 138, 47, "D6", new[] { 10, 9, 10, 10, 8, 0 })]
    [InlineData(24, 150, 49, "E6", new[] { 10, 9, 10, 9, 10, 1 })]
    public void StandardTuningHasSoManyPlaces(int frets, int places, int pitches, string highest, int[] pitchesWithPlaces)
    {
        var board = new Fretboard(Tuning.Standard, Capo.None, frets);
        var counts = Enumerable.Range(0, 128).Select(midi => board.PlacesOf(midi).Length).ToArray();
        Assert.Equal(places, counts.Sum());
        Assert.Equal(pitches, counts.Count(c => c > 0));
        Assert.Equal(Pitch.Parse(highest).Midi, Array.FindLastIndex(counts, c => c > 0));
        Assert.Equal(pitchesWithPlaces, Enumerable.Range(1, 6).Select(n => counts.Count(c => c == n)));
    }

    [Theory]
    [InlineData("E4", 24, "1,0 2,5 3,9 4,14 5,19 6,24")]
    [InlineData("C4", 22, "2,1 3,5 4,10 5,15 6,20")]
    [InlineData("A4", 22, "1,5 2,10 3,14 4,19")]
    [InlineData("E2", 22, "6,0")]
    public void APitchHasThesePlaces(string pitch, int frets, string stringNumbersAndFrets)
    {
        var places = new Fretboard(Tuning.Standard, Capo.None, frets).PlacesOf(Pitch.Parse(pitch));
        Assert.Equal(stringNumbersAndFrets, string.Join(' ', places.Select(p => $"{Tuning.Standard.StringNumber(p.StringIndex)},{p.Fret}")));
    }

    // MusicXML 4.0, type "string-number": "Strings are numbered from high to low, with 1 being the highest pitched full-length string."
    [Theory]
    [InlineData("E2 A2 D3 G3 B3 E4", 5, 1)]
    [InlineData("E2 A2 D3 G3 B3 E4", 0, 6)]
    [InlineData("E1 A1 D2 G2", 0, 4)]
    public void StringNumbersCountFromTheHighSide(string tuning, int index, int number)
    {
        Assert.Equal(number, Tuning.Parse(tuning).StringNumber(index));
        Assert.Equal(index, Tuning.Parse(tuning).StringIndex(number));
    }

    [Fact]
    public void ACapoRaisesEveryPitchByItsFret() =>
        Gen.Select(Tunings, Gen.Int[0, 12], Gen.Int[0, 15]).Sample((tuning, capo, fret) =>
        {
            var (bare, capoed) = (new Fretboard(tuning), new Fretboard(tuning, Capo.At(capo)));
            return Enumerable.Range(0, tuning.Count).All(i => capoed.MidiAt(i, fret) == bare.MidiAt(i, fret) + capo);
        });

    [Fact]
    public void EveryPlaceOfAPitchSoundsIt() =>
        Gen.Select(Tunings, Gen.Int[0, 12], Gen.Int[30, 100]).Sample((tuning, capo, midi) =>
        {
            var board = new Fretboard(tuning, Capo.At(capo));
            return board.PlacesOf(midi).All(p => board.MidiAt(p.StringIndex, p.Fret) == midi && board.FromNut(p.StringIndex, p.Fret) <= 20);
        });

    // Common practice: a capo on fret 2 over the A, D and G strings makes the open strings sound E B E A B E.
    [Fact]
    public void APartialCapoRaisesOnlyItsStrings()
    {
        var pitches = Shape.Parse("000000").Pitches(Tuning.Standard, Capo.At(2, 1, 2, 3));
        Assert.Equal("E2 B2 E3 A3 B3 E4", string.Join(' ', pitches));
    }

    [Fact]
    public void PitchesAreSpelledInTheKey()
    {
        var board = new Fretboard(Tuning.Standard);
        Assert.Equal("Bb2", board.PitchAt(1, 1, Key.Parse("F major").Centre).ToString());
        Assert.Equal("A#2", board.PitchAt(1, 1, Key.Parse("B major").Centre).ToString());
    }

    [Fact]
    public void AStringThatIsNotThereIsRefusedWithTheRange()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => new Fretboard(Tuning.Standard).MidiAt(6, 0));
        Assert.Contains("0, the low side, to 5", error.Message);
    }

    // The trade counts strings from the thin one: A2, D3 and G3 are the fifth, fourth and third of six.
    [Fact]
    public void APartialCapoNamesItsStringsFromTheThinOne() =>
        Assert.Equal(("2 on strings 3, 4, 5", "3"), (Capo.At(2, 1, 2, 3).Describe(Tuning.Standard), Capo.At(3).Describe(Tuning.Standard)));
}
