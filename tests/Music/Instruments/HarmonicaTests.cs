using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Instruments;

public class HarmonicaTests
{
    private static readonly Harmonica InC = Harmonica.Richter(PitchName.Parse("C"));

    // Start notes: Wikipedia, "Richter-tuned harmonica". The rest follows from the layout and the line of fifths,
    // worked outside this project.
    public static TheoryData<string, string, string> Keys => new()
    {
        { "C", "C4 E4 G4 C5 E5 G5 C6 E6 G6 C7", "D4 G4 B4 D5 F5 A5 B5 D6 F6 A6" },
        { "G", "G3 B3 D4 G4 B4 D5 G5 B5 D6 G6", "A3 D4 F#4 A4 C5 E5 F#5 A5 C6 E6" },
        { "Ab", "Ab3 C4 Eb4 Ab4 C5 Eb5 Ab5 C6 Eb6 Ab6", "Bb3 Eb4 G4 Bb4 Db5 F5 G5 Bb5 Db6 F6" },
        { "A", "A3 C#4 E4 A4 C#5 E5 A5 C#6 E6 A6", "B3 E4 G#4 B4 D5 F#5 G#5 B5 D6 F#6" },
        { "Bb", "Bb3 D4 F4 Bb4 D5 F5 Bb5 D6 F6 Bb6", "C4 F4 A4 C5 Eb5 G5 A5 C6 Eb6 G6" },
        { "B", "B3 D#4 F#4 B4 D#5 F#5 B5 D#6 F#6 B6", "C#4 F#4 A#4 C#5 E5 G#5 A#5 C#6 E6 G#6" },
        { "Db", "Db4 F4 Ab4 Db5 F5 Ab5 Db6 F6 Ab6 Db7", "Eb4 Ab4 C5 Eb5 Gb5 Bb5 C6 Eb6 Gb6 Bb6" },
        { "D", "D4 F#4 A4 D5 F#5 A5 D6 F#6 A6 D7", "E4 A4 C#5 E5 G5 B5 C#6 E6 G6 B6" },
        { "Eb", "Eb4 G4 Bb4 Eb5 G5 Bb5 Eb6 G6 Bb6 Eb7", "F4 Bb4 D5 F5 Ab5 C6 D6 F6 Ab6 C7" },
        { "E", "E4 G#4 B4 E5 G#5 B5 E6 G#6 B6 E7", "F#4 B4 D#5 F#5 A5 C#6 D#6 F#6 A6 C#7" },
        { "F", "F4 A4 C5 F5 A5 C6 F6 A6 C7 F7", "G4 C5 E5 G5 Bb5 D6 E6 G6 Bb6 D7" },
        { "F#", "F#4 A#4 C#5 F#5 A#5 C#6 F#6 A#6 C#7 F#7", "G#4 C#5 E#5 G#5 B5 D#6 E#6 G#6 B6 D#7" },
    };

    // OEIS A291810: semitones above the lowest note of a diatonic harmonica.
    [Theory]
    [InlineData(Breath.Blow, "0 4 7 12 16 19 24 28 31 36")]
    [InlineData(Breath.Draw, "2 7 11 14 17 21 23 26 29 33")]
    public void TheRichterLayoutIsTheSequence(Breath breath, string semitones)
    {
        var lowest = InC.PitchOf(new(1, Breath.Blow)).Midi;
        Assert.Equal(semitones, string.Join(' ', Enumerable.Range(1, 10).Select(h => InC.PitchOf(new(h, breath)).Midi - lowest)));
    }

    [Theory]
    [MemberData(nameof(Keys))]
    public void EveryKeyHasItsNotesAndOctave(string key, string blow, string draw)
    {
        var harp = Harmonica.Richter(PitchName.Parse(key));
        Assert.Equal(blow, string.Join(' ', harp.Together(Breath.Blow, 1, 10).Pitches));
        Assert.Equal(draw, string.Join(' ', harp.Together(Breath.Draw, 1, 10).Pitches));
    }

    [Fact]
    public void EveryKeyIsTheCHarmonicaMoved() =>
        Assert.All(Harmonica.UsualKeys, key =>
        {
            var harp = Harmonica.Richter(key);
            var move = Interval.Between(InC.PitchOf(new(1, Breath.Blow)), harp.PitchOf(new(1, Breath.Blow)));
            Assert.All(InC.AllNotes, note => Assert.Equal(InC.PitchOf(note) + move, harp.PitchOf(note)));
        });

    // The rule that a hole's higher reed bends to a semitone above its lower one, as teaching pages give it;
    // the pitches were worked from it by hand.
    [Theory]
    [InlineData(1, "-1' Db4")]
    [InlineData(2, "-2' Gb4, -2'' F4")]
    [InlineData(3, "-3' Bb4, -3'' A4, -3''' Ab4")]
    [InlineData(4, "-4' Db5")]
    [InlineData(5, "")]
    [InlineData(6, "-6' Ab5")]
    [InlineData(7, "")]
    [InlineData(8, "+8' Eb6")]
    [InlineData(9, "+9' Gb6")]
    [InlineData(10, "+10' B6, +10'' Bb6")]
    public void HolesBendAsFarAsTheirReedsAllow(int hole, string bends) =>
        Assert.Equal(bends, Written(InC.AllNotes.Where(n => n.Hole == hole && n.Technique == HarpTechnique.Bent)));

    // An over-bend sounds a semitone above the hole's higher reed (common practice).
    [Fact]
    public void OverBendsSoundAboveTheHigherReed() =>
        Assert.Equal(
            "+1o Eb4, +2o Ab4, +3o C5, +4o Eb5, +5o Gb5, +6o Bb5, -7o Db6, -8o F6, -9o Ab6, -10o Db7",
            Written(InC.AllNotes.Where(n => n.Technique == HarpTechnique.OverBent)));

    // Counted from the layout and the bending rule, outside this project.
    [Fact]
    public void SoManyPitchesAreThere()
    {
        int[] Sounding(params HarpTechnique[] with) =>
            [.. InC.AllNotes.Where(n => with.Contains(n.Technique)).Select(n => InC.PitchOf(n).Midi).Distinct()];
        var range = Enumerable.Range(60, 37).ToArray();
        Assert.Equal(19, Sounding(HarpTechnique.Plain).Length);
        Assert.Equal(31, Sounding(HarpTechnique.Plain, HarpTechnique.Bent).Length);
        Assert.Equal(
            new[] { "Eb4", "Eb5", "Gb5", "Bb5", "Db6", "Ab6" }.Select(p => Pitch.Parse(p).Midi),
            range.Except(Sounding(HarpTechnique.Plain, HarpTechnique.Bent)));
        Assert.Empty(range.Except(Sounding(HarpTechnique.Plain, HarpTechnique.Bent, HarpTechnique.OverBent)));
    }

    [Fact]
    public void DrawTwoAndBlowThreeAreOnePitch() =>
        Assert.Equal("-2 G4, +3 G4", Written(InC.NotesFor(Pitch.Parse("G4"))));

    [Fact]
    public void EveryNoteIsFoundBackFromItsPitch() =>
        Assert.All(Harmonica.UsualKeys.Select(k => Harmonica.Richter(k)), harp =>
            Assert.All(harp.AllNotes, note => Assert.Contains(note, harp.NotesFor(harp.PitchOf(note)))));

    [Theory]
    [InlineData("-5'")]
    [InlineData("-3''''")]
    [InlineData("+11")]
    [InlineData("-4o")]
    public void NotesThatAreNotThereHaveNoPitch(string note) => Assert.Null(InC.FindPitch(HarpNote.Parse(note)));

    [Fact]
    public void ALowHarmonicaLiesAnOctaveDown() =>
        Assert.Equal("F3", Harmonica.Richter(PitchName.Parse("F"), octave: -1).PitchOf(new(1, Breath.Blow)).ToString());

    // Position charts, as at harpinanawhinin.com.
    [Fact]
    public void PositionsGoUpByFifths()
    {
        var keys = Enumerable.Range(1, 12).Select(InC.KeyInPosition).ToArray();
        Assert.Equal("C G D A E B F# Db Ab Eb Bb F", string.Join(' ', keys));
        Assert.Equal(Enumerable.Range(1, 12), keys.Select(InC.PositionFor));
    }

    // Cross harp, common practice.
    [Theory]
    [InlineData("E", "A")]
    [InlineData("A", "D")]
    [InlineData("G", "C")]
    [InlineData("D", "G")]
    [InlineData("B", "E")]
    [InlineData("C", "F")]
    public void SecondPositionTakesAHarmonicaAFifthBelow(string song, string harp) =>
        Assert.Equal(harp, HarpPosition.Harp(PitchName.Parse(song), 2).ToString());

    // Worked by hand from the layout.
    [Theory]
    [InlineData("G", "1 3 5", "-1–3, -1–4, -2–4")]
    [InlineData("G", "1 3 5 b7", "-1–5, -2–5")]
    [InlineData("D", "1 b3 5", "-4–6, -8–10")]
    [InlineData("B", "1 b3 b5", "-3–5, -7–9")]
    [InlineData("F", "1 3 5", "")]
    [InlineData("A", "1 b3 5", "")]
    [InlineData("E", "1 b3 5", "")]
    public void TheseChordsLieOnNeighbouringHoles(string root, string degrees, string runs) =>
        Assert.Equal(runs, string.Join(", ", InC.TogetherFor(Chord.Of(PitchName.Parse(root), ChordQuality.FromDegrees(degrees)))));

    [Fact]
    public void EveryBlowRunIsTheHomeChord() =>
        Assert.All(
            InC.AllTogether().Where(run => run.Breath == Breath.Blow && run.Pitches.Length >= 3),
            run => Assert.Equal([0, 4, 7], run.PitchClasses));

    // A harmonica in A drawn on holes 1 to 4 gives E major (common practice; the reason for cross harp).
    [Fact]
    public void ADrawOnAnAHarmonicaGivesE() =>
        Assert.Equal("B3 E4 G#4 B4", string.Join(' ', Harmonica.Richter(PitchName.Parse("A")).Together(Breath.Draw, 1, 4).Pitches));

    // A tune in E with its seventh lowered lies on the plain notes of an A harmonica (second position, common practice).
    [Fact]
    public void TheChooserFindsCrossHarp()
    {
        var tune = "E4 G#4 B4 D5 F#5 C#5 A4 E4".Split(' ').Select(Pitch.Parse);
        var best = HarpChooser.Rank(tune)[0];
        Assert.Equal("A", best.Harp.Key.ToString());
        Assert.Equal((0.0, 8, 0, 0), (best.Cost, best.Plain, best.Bent, best.OverBent));
    }

    [Fact]
    public void TheChooserSaysWhatIsOutOfReach()
    {
        var fits = HarpChooser.Rank([Pitch.Parse("C4"), Pitch.Parse("E2")]);
        Assert.All(fits, fit => Assert.Contains(Pitch.Parse("E2"), fit.Unreachable));
        Assert.Equal(12, fits.Length);
    }

    private static string Written(IEnumerable<HarpNote> notes) => string.Join(", ", notes.Select(n => $"{n} {InC.PitchOf(n)}"));
}
