using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Tests.Instruments;

public class TuningCatalogueTests
{
    // Names and pitches: common practice. The letters of drop D, D A D G A D, open C, D and G and both cross-note tunings are also
    // in the Encyclopedia of Music, "alternative guitar tunings" (daviddarling.info); open G minor, C6, the C G D … tunings,
    // all fourths and baritone are from memory. MIDI numbers and changes from standard are worked outside this project.
    public static TheoryData<string, string, string, string> Tunings => new()
    {
        { "drop D", "D2 A2 D3 G3 B3 E4", "38 45 50 55 59 64", "-2 0 0 0 0 0" },
        { "double drop D", "D2 A2 D3 G3 B3 D4", "38 45 50 55 59 62", "-2 0 0 0 0 -2" },
        { "D A D G A D", "D2 A2 D3 G3 A3 D4", "38 45 50 55 57 62", "-2 0 0 0 -2 -2" },
        { "open D", "D2 A2 D3 F#3 A3 D4", "38 45 50 54 57 62", "-2 0 0 -1 -2 -2" },
        { "open D minor", "D2 A2 D3 F3 A3 D4", "38 45 50 53 57 62", "-2 0 0 -2 -2 -2" },
        { "open G", "D2 G2 D3 G3 B3 D4", "38 43 50 55 59 62", "-2 -2 0 0 0 -2" },
        { "open G minor", "D2 G2 D3 G3 Bb3 D4", "38 43 50 55 58 62", "-2 -2 0 0 -1 -2" },
        { "open C", "C2 G2 C3 G3 C4 E4", "36 43 48 55 60 64", "-4 -2 -2 0 1 0" },
        { "C6", "C2 A2 C3 G3 C4 E4", "36 45 48 55 60 64", "-4 0 -2 0 1 0" },
        { "open E", "E2 B2 E3 G#3 B3 E4", "40 47 52 56 59 64", "0 2 2 1 0 0" },
        { "open E minor", "E2 B2 E3 G3 B3 E4", "40 47 52 55 59 64", "0 2 2 0 0 0" },
        { "open A", "E2 A2 E3 A3 C#4 E4", "40 45 52 57 61 64", "0 0 2 2 2 0" },
        { "half step down", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4", "39 44 49 54 58 63", "-1 -1 -1 -1 -1 -1" },
        { "whole step down", "D2 G2 C3 F3 A3 D4", "38 43 48 53 57 62", "-2 -2 -2 -2 -2 -2" },
        { "drop C", "C2 G2 C3 F3 A3 D4", "36 43 48 53 57 62", "-4 -2 -2 -2 -2 -2" },
        { "C G D G A D", "C2 G2 D3 G3 A3 D4", "36 43 50 55 57 62", "-4 -2 0 0 -2 -2" },
        { "C G D G C D", "C2 G2 D3 G3 C4 D4", "36 43 50 55 60 62", "-4 -2 0 0 1 -2" },
        { "all fourths", "E2 A2 D3 G3 C4 F4", "40 45 50 55 60 65", "0 0 0 0 1 1" },
        { "baritone", "B1 E2 A2 D3 F#3 B3", "35 40 45 50 54 59", "-5 -5 -5 -5 -5 -5" },
    };

    [Theory]
    [MemberData(nameof(Tunings))]
    public void NamedTuningsHaveTheirPitches(string name, string pitches, string midi, string change)
    {
        var named = name == "baritone" ? TuningCatalogue.Find("standard", "baritone guitar") : TuningCatalogue.Find(name);
        var tuning = named!.Tuning;
        Assert.Equal(pitches, tuning.ToString());
        Assert.Equal(midi, string.Join(' ', tuning.Strings.Select(s => s.Midi)));
        Assert.Equal(change, string.Join(' ', tuning.ChangeFrom(Tuning.Standard)));
    }

    // Common practice for what each open tuning sounds; the bass is the lowest string.
    [Theory]
    [InlineData("open D", "D F# A", "D")]
    [InlineData("open G", "G B D", "D")]
    [InlineData("open C", "C E G", "C")]
    [InlineData("open E", "E G# B", "E")]
    [InlineData("open A", "A C# E", "E")]
    [InlineData("open D minor", "D F A", "D")]
    [InlineData("open G minor", "G Bb D", "D")]
    [InlineData("open E minor", "E G B", "E")]
    [InlineData("D A D G A D", "D G A", "D")]
    public void OpenTuningsSoundTheirChord(string name, string notes, string bass)
    {
        var tuning = TuningCatalogue.Find(name)!.Tuning;
        Assert.Equal(notes.Split(' ').ToHashSet(), tuning.Strings.Select(s => s.Name.ToString()).ToHashSet());
        Assert.Equal(bass, tuning.Strings.MinBy(s => s.Midi).Name.ToString());
    }

    [Theory]
    [InlineData("open E", "open D", 2)]
    [InlineData("open A", "open G", 2)]
    [InlineData("standard", "half step down", 1)]
    public void SomeTuningsAreOthersUnderACapo(string higher, string lower, int capo)
    {
        var board = new Fretboard(TuningCatalogue.Find(lower)!.Tuning, Capo.At(capo));
        Assert.Equal(
            TuningCatalogue.Find(higher)!.Tuning.Strings.Select(s => s.Midi),
            Enumerable.Range(0, 6).Select(i => board.MidiAt(i, 0)));
    }

    [Fact]
    public void EveryRowIsWhole()
    {
        Assert.All(TuningCatalogue.All, row =>
        {
            Assert.NotEmpty(row.Name);
            Assert.Contains(row.Source, new[] { "CP", "E", "G", "B", "M" });
            Assert.Same(row, TuningCatalogue.Find(row.Name, row.Instrument));
            Assert.Equal(row.Name, TuningCatalogue.NameOf(row.Tuning, row.Instrument));
        });
        Assert.All(TuningCatalogue.All.GroupBy(row => row.Instrument), rows => Assert.Single(rows.Select(r => r.Tuning.Count).Distinct()));
    }

    [Theory]
    [InlineData("D2 A2 D3 Gb3 A3 D4", "open D")]
    [InlineData("B1 E2 B2 E3 G#3 B3", "open G, 3 semitones down")]
    [InlineData("C#2 F#2 B2 E3 G#3 C#4", "standard, 3 semitones down")]
    [InlineData("D2 A2 D3 F#3 A3 E4", "D2 A2 D3 F#3 A3 E4")]
    public void ATuningIsDescribedByNameByMovingOneOrByItsNotes(string pitches, string description) =>
        Assert.Equal(description, TuningCatalogue.Describe(Tuning.Parse(pitches)));

    [Fact]
    public void NoSuchNameIsNull() => Assert.Null(TuningCatalogue.Find("open Q"));
}
