using CsCheck;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Theory;

public class IntervalTests
{
    // The library tonal 6.4.3, Interval.distance, written its way round (3M for M3).
    [Theory]
    [InlineData("C4", "E4", "M3", 4)]
    [InlineData("C4", "Eb4", "m3", 3)]
    [InlineData("C4", "D#4", "A2", 3)]
    [InlineData("F4", "B4", "A4", 6)]
    [InlineData("B3", "F4", "d5", 6)]
    [InlineData("Ab3", "F#4", "A6", 10)]
    [InlineData("E2", "A2", "P4", 5)]
    [InlineData("A2", "E2", "-P4", -5)]
    public void PitchesAreApart(string from, string to, string name, int semitones)
    {
        var interval = Interval.Between(Pitch.Parse(from), Pitch.Parse(to));
        Assert.Equal((name, semitones), (interval.ToString(), interval.Semitones));
    }

    // Definition: steps on the line of fifths.
    [Theory]
    [InlineData("P5", 1)]
    [InlineData("P4", -1)]
    [InlineData("M2", 2)]
    [InlineData("m7", -2)]
    [InlineData("M6", 3)]
    [InlineData("m3", -3)]
    [InlineData("M3", 4)]
    [InlineData("m6", -4)]
    [InlineData("M7", 5)]
    [InlineData("m2", -5)]
    [InlineData("A4", 6)]
    [InlineData("d5", -6)]
    [InlineData("A5", 8)]
    [InlineData("A2", 9)]
    [InlineData("d7", -9)]
    [InlineData("A6", 10)]
    public void NamesLieOnTheLineOfFifths(string name, int fifths) => Assert.Equal(fifths, Interval.Parse(name).Fifths);

    // Inversion: common practice.
    [Theory]
    [InlineData("M3", "m6")]
    [InlineData("P5", "P4")]
    [InlineData("A4", "d5")]
    [InlineData("P1", "P8")]
    [InlineData("M9", "m7")]
    public void IntervalsInvert(string name, string inverted) => Assert.Equal(inverted, Interval.Parse(name).Inverted.ToString());

    [Theory]
    [InlineData("M9", "M2", true)]
    [InlineData("P8", "P8", false)]
    [InlineData("P12", "P5", true)]
    [InlineData("m3", "m3", false)]
    public void CompoundIntervalsHaveSimpleOnes(string name, string simple, bool isCompound)
    {
        Assert.Equal(simple, Interval.Parse(name).Simple.ToString());
        Assert.Equal(isCompound, Interval.Parse(name).IsCompound);
    }

    [Theory]
    [InlineData("M5")]
    [InlineData("P3")]
    [InlineData("m4")]
    [InlineData("3")]
    [InlineData("")]
    [InlineData("P0")]
    public void WrongNamesAreRefused(string text) => Assert.False(Interval.TryParse(text, out _));

    [Fact]
    public void NamesReadBack() => AnyInterval.Sample(i => Interval.Parse(i.ToString()) == i && Interval.Parse((-i).ToString()) == -i);

    [Fact]
    public void InvertingTwiceIsSimple() =>
        Gen.Select(Gen.Int[1, 7], Gen.Int[-1, 1], Interval.FromDegree).Where(i => i.Semitones is > 0 and < 12).Sample(i => i.Inverted.Inverted == i);

    [Fact]
    public void TransposingThereAndBackKeepsSpelling() =>
        Gen.Select(AnyChord.Of(13), Gen.Select(Gen.Int[1, 7], Gen.Int[-1, 1], Interval.FromDegree)).Sample((chord, by) =>
            chord.Transposed(by).Transposed(-by) == chord);

    [Fact]
    public void EnharmonicNamesSoundTheSame() =>
        AnyChord.Of(13).Sample(chord =>
        {
            var by = Interval.Of(chord.Root.Fifths > 0 ? -12 : 12, 0); // C to B#, or F# to Gb
            return chord.Transposed(by).PitchClasses.SequenceEqual(chord.PitchClasses);
        });

    // Just sizes and partials are arithmetic: 1200 log2 of the ratio.
    [Theory]
    [InlineData("E4", 329.6276)]
    [InlineData("E2", 82.4069)]
    [InlineData("C4", 261.6256)]
    [InlineData("G5", 783.9909)]
    [InlineData("C6", 1046.5023)]
    [InlineData("Cb4", 246.9417)]
    public void PitchesHaveTheFrequenciesOfEqualTemperament(string pitch, double hertz) =>
        Assert.Equal(hertz, Pitch.Parse(pitch).Frequency(Units.Hertz.FromHertz(440)).Value, 4);

    // Chord spellings: the library teoria 2.5.0.
    [Theory]
    [InlineData("Cdim7", "C Eb Gb Bbb")]
    [InlineData("C7#9", "C E G Bb D#")]
    [InlineData("C7b9", "C E G Bb Db")]
    [InlineData("C+", "C E G#")]
    public void ChordsAreSpelled(string symbol, string notes) =>
        Assert.Equal(notes.Split(' ').Order(), ChordSymbol.Read(symbol).Notes.Select(n => n.ToString()).Order());

    private static Gen<Interval> AnyInterval => Gen.Select(Gen.Int[1, 15], Gen.Int[-3, 3], Interval.FromDegree);
}
