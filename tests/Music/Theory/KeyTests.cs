using CsCheck;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Theory;

public class KeyTests
{
    // Arithmetic on the line of fifths; the rows for C, E and Ab agree with the library tonal 6.4.3.
    [Theory]
    [InlineData("C", "Db Eb Ab Bb E B")]
    [InlineData("E", "F G C D G# D#")]
    [InlineData("B", "C D G A D# A#")]
    [InlineData("F#", "G A D E A# E#")]
    [InlineData("Db", "Ebb Fb Bbb Cb F C")]
    [InlineData("Ab", "Bbb Cb Fb Gb C G")]
    public void BorrowedAndNativeRootsAreSpelledByKey(string tonic, string names)
    {
        var key = new Key(PitchName.Parse(tonic), Mode.Major);
        PitchName[] roots = [key.Note(2, -1), key.Note(3, -1), key.Note(6, -1), key.Note(7, -1), key.Note(3), key.Note(7)];
        Assert.Equal(names, string.Join(' ', roots));
        Assert.Equal(["b2", "b3", "b6", "b7", "3", "7"], roots.Select(r => key.DegreeOf(r).DegreeName));
    }

    // Diatonic sevenths: the library tonal 6.4.3, Key.majorKey.
    [Theory]
    [InlineData("A major", "Amaj7 Bm7 C#m7 Dmaj7 E7 F#m7 G#m7b5")]
    [InlineData("E major", "Emaj7 F#m7 G#m7 Amaj7 B7 C#m7 D#m7b5")]
    [InlineData("Db major", "Dbmaj7 Ebm7 Fm7 Gbmaj7 Ab7 Bbm7 Cm7b5")]
    public void SeventhsOfTheScale(string key, string chords) =>
        Assert.Equal(chords, string.Join(' ', Enumerable.Range(1, 7).Select(Key.Parse(key).Seventh)));

    [Fact]
    public void SpellingOfRemoteKeys()
    {
        Assert.Equal("E#m7b5", Key.Parse("F# major").Seventh(7).ToString());
        Assert.Equal("Cbmaj7", Key.Parse("Gb major").Seventh(4).ToString());
    }

    // Common practice.
    [Theory]
    [InlineData("A minor", "Am Bdim C Dm Em F G")]
    [InlineData("D mixolydian", "D Em F#dim G Am Bm C")]
    public void TriadsOfTheScale(string key, string chords) =>
        Assert.Equal(chords, string.Join(' ', Enumerable.Range(1, 7).Select(Key.Parse(key).Triad)));

    [Theory]
    [InlineData("E major", 0, "C")]
    [InlineData("E major", 5, "F")]
    [InlineData("A minor", 8, "G#")]
    [InlineData("C major", 6, "F#")]
    [InlineData("C major", 10, "Bb")]
    [InlineData("Db major", 5, "F")]
    public void ChromaticNotesAreSpelledByKey(string key, int pitchClass, string name) =>
        Assert.Equal(name, Key.Parse(key).Spell(pitchClass).ToString());

    [Fact]
    public void SpellKeepsThePitchClass() =>
        Gen.Select(Gen.Int[-7, 7], Gen.Int[0, 11], Gen.Int[0, Mode.All.Length - 1]).Sample((tonic, pitchClass, mode) =>
            new Key(PitchName.FromFifths(tonic), Mode.All[mode]).Spell(pitchClass).PitchClass == pitchClass);

    // Common practice.
    [Theory]
    [InlineData("E", "blues", "E G A Bb B D")]
    [InlineData("A", "minor pentatonic", "A C D E G")]
    [InlineData("G", "major pentatonic", "G A B D E")]
    [InlineData("C", "melodic minor", "C D Eb F G A B")]
    [InlineData("D", "dorian", "D E F G A B C")]
    public void ScalesAreSpelled(string tonic, string scale, string notes) =>
        Assert.Equal(notes, string.Join(' ', Scale.All.Single(s => s.Name == scale).On(PitchName.Parse(tonic))));
}
