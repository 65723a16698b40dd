using CsCheck;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Theory;

/// <summary>
/// Names that players accept for a set of notes, the bass first. Common practice; the outcomes were compared
/// with those of the library tonal 6.4.3 (Chord.detect), whose known oddities are the traps here.
/// </summary>
public class ChordNamingTests
{
    [Theory]
    [InlineData("C E G", "C")]
    [InlineData("E G C", "C/E")]
    [InlineData("G C E", "C/G")]
    [InlineData("A C E G", "Am7,C6/A")]
    [InlineData("C E G A", "C6,Am7/C")]
    [InlineData("D F A C", "Dm7,F6/D")]
    [InlineData("F A C D", "F6,Dm7/F")]
    [InlineData("E G B C", "Cmaj7/E")]
    [InlineData("G B D F", "G7")]
    [InlineData("B D F A", "Bm7b5,Dm6/B")]
    [InlineData("B D F Ab", "Bdim7")]
    [InlineData("G# B D F", "G#dim7")]
    [InlineData("C E G#", "Caug")]
    [InlineData("C F G", "Csus4")]
    [InlineData("G C D", "Gsus4")]
    [InlineData("C D G", "Csus2")]
    [InlineData("A D E", "Asus4,Dsus2/A")]
    [InlineData("E B", "E5")]
    [InlineData("E A B", "Esus4")]
    [InlineData("C E G D", "Cadd9")]
    [InlineData("G F A C", "F/G,G9sus4")]
    [InlineData("G D F A C", "G9sus4")]
    [InlineData("C Bb D F", "Bb/C,C9sus4")]
    [InlineData("D C E G", "C/D,D9sus4")]
    [InlineData("F C E G", "Fmaj9(no3),C/F")]
    [InlineData("A C# G C E", "A7#9")]
    [InlineData("D F# C", "D7")]
    [InlineData("C Eb G A", "Cm6,Am7b5/C")]
    [InlineData("E C G Bb F#", "C7#11/E")]
    [InlineData("C# A E G# B", "Amaj9/C#")]
    [InlineData("Eb G B C", "Cm(maj7)/Eb")]
    public void FirstNameIsOneThatPlayersAccept(string notes, string accepted) =>
        Assert.Contains(Rank(notes)[0].Symbol, accepted.Split(','));

    // Doc tests of the library music21 (chord symbols from pitches).
    [Theory]
    [InlineData("Bb Db F", "Bbm")]
    [InlineData("F# A# C##", "F#aug")]
    [InlineData("C Eb Gb", "Cdim")]
    [InlineData("C E G B", "Cmaj7")]
    [InlineData("F# A C# E#", "F#m(maj7)")]
    public void AgreesWithMusic21(string notes, string name) => Assert.Equal(name, Rank(notes)[0].Symbol);

    // One layer over another: unions of two triads, named by common practice.
    [Theory]
    [InlineData("A C E G", "Am7")]
    [InlineData("C E G B D", "Cmaj9")]
    [InlineData("F A C E G", "Fmaj9")]
    [InlineData("G B D F A", "G9")]
    [InlineData("E G G# B D", "E7#9")]
    [InlineData("C D E F# G A", "C6/9#11")]
    [InlineData("D F A C E G", "Dm11")]
    [InlineData("A C E G B D", "Am11")]
    [InlineData("Bb D F C E G", "Bb6/9#11")]
    [InlineData("C E G Bb D F# A", "C13#11")]
    [InlineData("C E G Bb Db A", "C13b9")]
    [InlineData("C E G Bb Eb", "C7#9")]
    [InlineData("C E G Bb Db Gb", "C7b9#11")]
    public void LayersHaveOneName(string notes, string name) => Assert.Equal(name, Rank(notes)[0].Symbol);

    // Common practice on the guitar: a descending bass is written below the plain chord.
    [Theory]
    [InlineData("G A C E", "Am/G")]
    [InlineData("F# D A D", "D/F#")]
    [InlineData("F# G B D", "G/F#")]
    public void BassLinesAreWrittenAsSlashes(string notes, string name) => Assert.Equal(name, Rank(notes)[0].Symbol);

    // Borrowed chords are spelled by function: the intervals of bII, bIII, bVI and bVII on the line of fifths.
    [Theory]
    [InlineData("C E G", "E major", "C")]
    [InlineData("G# C D#", "C major", "Ab")]
    [InlineData("D# G A#", "C major", "Eb")]
    [InlineData("C# F G#", "C minor", "Db")]
    [InlineData("Bb Db F", "B major", "A#m")]
    [InlineData("G# B D F", "A minor", "G#dim7")]
    [InlineData("B D F G#", "C minor", "Bdim7")]
    public void NotesAreSpelledByFunction(string notes, string key, string name) =>
        Assert.Equal(name, ChordNaming.Rank(Names(notes), Names(notes)[0], Key.Parse(key))[0].Symbol);

    [Theory]
    [InlineData("D F# C", "the fifth, A, is left out")]
    [InlineData("E B", "neither major nor minor")]
    [InlineData("E G C", "the third, E, is in the bass")]
    [InlineData("G F A C", "the bass, G, is not one of its notes")]
    public void ReasonsAreInWords(string notes, string reason) => Assert.Contains(reason, Rank(notes)[0].Reason);

    [Fact]
    public void SilenceIsNoChord() => Assert.True(Assert.Single(ChordNaming.Rank([])).Chord.IsNone);

    [Fact]
    public void EveryNameHoldsExactlyTheNotes() =>
        AnyNotes.Sample(notes =>
        {
            var expected = notes.Select(n => n.PitchClass).Distinct().Order();
            return ChordNaming.Rank(notes, notes[0]).All(name => name.Chord.PitchClasses
                .Except(name.LeftOut.Select(i => (name.Chord.Root + i).PitchClass)).SequenceEqual(expected));
        });

    [Fact]
    public void NamesMoveWithTheNotes() =>
        Gen.Select(AnyNotes, Gen.Int[0, 11]).Sample((notes, up) =>
        {
            var moved = notes.Select(n => PitchName.FromPitchClass((n.PitchClass + up) % 12)).ToList();
            var before = ChordNaming.Rank(notes, notes[0]).Select(n => n.Chord.Quality).ToHashSet();
            return ChordNaming.Rank(moved, moved[0]).All(n => before.Contains(n.Chord.Quality));
        });

    [Fact]
    public void BassIsTheLowestNote() =>
        AnyNotes.Sample(notes => ChordNaming.Rank(notes, notes[0]).All(name => name.Chord.Bass.PitchClass == notes[0].PitchClass));

    private static Gen<List<PitchName>> AnyNotes => Gen.Int[-5, 8].Select(PitchName.FromFifths).List[1, 7];

    private static IReadOnlyList<ChordName> Rank(string notes) => ChordNaming.Rank(Names(notes), Names(notes)[0]);

    private static List<PitchName> Names(string notes) => [.. notes.Split(' ').Select(PitchName.Parse)];
}
