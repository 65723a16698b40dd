using CsCheck;
using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Harmony;
using Harkbook.Music.Analysis.Harmony.Remarks;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Tests.Instruments;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Analysis.Harmony;

/// <summary>One set of notes, named as its bass, its key and its neighbours ask for. Common practice.</summary>
public class NamesInContextTests
{
    [Theory]
    [InlineData("C E G A", "C", "G7", null, "C6")] // home, from its five chord
    [InlineData("C E G A", "C", "E7", null, "Am7/C")] // its five chord leads to A
    [InlineData("C E G A", "G", null, "D7", "Am7/C")] // two before five
    [InlineData("A C E G", "C", "C", "F", "Am7")]
    [InlineData("G A C E", "C", "Am", "F", "Am/G")] // the bass walks down under A minor
    [InlineData("B D G", "C", "C", "Am", "G/B")]
    [InlineData("F# D A", "G", "G", "Em", "D/F#")]
    [InlineData("B D F A", "A", null, "E7", "Bm7b5")]
    [InlineData("E D Bb", "F", null, "F", "C9/E")] // a dominant without root and fifth: third, ninth and seventh
    [InlineData("E Bb D A", "F", null, "F", "C13/E")]
    public void NeighboursDecide(string notes, string key, string? before, string? after, string name) =>
        Assert.Equal(name, Rank(notes, key, before, after)[0].Name.Symbol);

    /// <summary>
    /// The ukulele's shapes of data/common-shapes.tsv, which names its sources: each is called as there first or second (C6 and Am7 are one set of
    /// notes). A banjo's drone sounds beside every chord and isn't in its name, so its shapes don't tell.
    /// </summary>
    [Fact]
    public void AUkulelesShapesAreNamedAsTheyAreTaught()
    {
        var taught = FingeringTests.Published.Select(row => row.Data).Select(row => (Chord: row.Item2, Frets: row.Item3,
            TuningCatalogue.All.First(t => t.Instrument == row.Item1).Tuning)).Where(row => row.Tuning.Count == 4 && row.Tuning.IsReentrant).ToArray();
        Assert.NotEmpty(taught);
        Assert.All(taught, row => Assert.Contains(row.Chord, NamesInContext.RankWithoutBass(Shape.Parse(row.Frets).Pitches(row.Tuning, default, 2))
            .Take(2).Select(n => n.Name.Symbol)));
        Assert.DoesNotContain("bass", NamesInContext.RankWithoutBass(Shape.Parse("2010").Pitches(taught[0].Tuning, default, 2))[0].Reason,
            StringComparison.Ordinal);
    }

    // Which names of some notes a player would say: common practice, from memory. C6 and Am7 are one set of notes, and both are said.
    [Theory]
    [InlineData("C E G", null, "C", "Em#5/C Em#5/B#")]
    [InlineData("A C E", null, "Am", "C6/A")]
    [InlineData("C E G A", null, "C6 Am7/C", "")]
    [InlineData("Eb Bb D G", null, "Ebmaj7 Gm/Eb", "Bb6add11/Eb Gmaddb6/Eb")]
    [InlineData("G B D F#", null, "Gmaj7", "Bm#5/F##")]
    [InlineData("E# G# B#", "C#", "E#m", "")]
    public void OnlyNamesThatSomebodyWouldSay(string notes, string? key, string said, string unsaid)
    {
        var context = key is null ? null : Key.Parse(key + " major");
        var names = notes.Split(' ').Select(PitchName.Parse).ToArray();
        var left = NamesInContext.Said(NamesInContext.Rank(names, names[0], context), context).Select(n => n.Name.Symbol).ToArray();
        Assert.All(said.Split(' '), name => Assert.Contains(name, left));
        Assert.All(unsaid.Split(' ', StringSplitOptions.RemoveEmptyEntries), name => Assert.DoesNotContain(name, left));
        Assert.All(left, name => Assert.DoesNotMatch("##|bb", name));
    }

    [Fact]
    public void RunnersUpHaveTheirReasons()
    {
        var names = Rank("C E G A", "C", "E7", null);
        Assert.Equal(["Am7/C", "C6"], names.Take(2).Select(n => n.Name.Symbol));
        Assert.Equal(["E seven, its five chord, leads to it"], names[0].Fits);
        Assert.Contains("the third, C, is in the bass", names[0].Reason);
        Assert.Contains("C E G A are 1 3 5 6 of C", names[1].Reason);
    }

    [Fact]
    public void ABassThatComesBackDoesNotWalk()
    {
        Assert.Equal(["the bass walks from A to F while A stays the root"], Rank("G A C E", "C", "Am", "F")[0].Fits);
        Assert.Equal(["A minor, beside it, has the same root"], Rank("G A C E", "C", "Am", "Am")[0].Fits);
    }

    [Fact]
    public void ARootlessDominantSaysSo()
    {
        var name = Rank("E D Bb", "F", null, "F")[0];
        Assert.Contains("the root, C, is left out", name.Reason);
        Assert.Contains("without its root it is the five chord of F, which follows", name.Reason);
        Assert.DoesNotContain(Rank("E D Bb", "F", null, "G"), n => n.Name.Symbol == "C9/E");
    }

    [Fact]
    public void WithoutNeighboursNamesStayAsTheyWere() =>
        Gen.Int[-5, 8].Select(PitchName.FromFifths).List[1, 7].Sample(notes =>
            NamesInContext.Rank(notes, notes[0]).Select(n => n.Name.Symbol).SequenceEqual(ChordNaming.Rank(notes, notes[0]).Select(n => n.Symbol)));

    [Fact]
    public void EveryNameHoldsExactlyTheNotes() =>
        Gen.Select(Gen.Int[-5, 8].Select(PitchName.FromFifths).List[1, 7], Gen.Int[-5, 6]).Sample((notes, next) =>
        {
            var expected = notes.Select(n => n.PitchClass).Distinct().Order();
            var after = Chord.Of(PitchName.FromFifths(next), ChordQuality.Major);
            return NamesInContext.Rank(notes, notes[0], null, null, after).All(name => name.Name.Chord.PitchClasses
                .Except(name.Name.LeftOut.Select(i => (name.Name.Chord.Root + i).PitchClass)).SequenceEqual(expected));
        });

    [Fact]
    public void TheSongsNameStaysAndTheOtherIsRemarkedOn()
    {
        var song = Tune.In("C major", "| C | E7 | C6 | Dm | G | C |");
        var remark = Assert.Single(HarmonyRemarks.Of(song), r => r.Kind == RemarkKind.OtherName);
        Assert.Equal("The notes of C six also read as A minor seven over C. A minor seven over C fits its neighbours: its root falls a fifth to D, which "
            + "follows, and E seven, its five chord, leads to it.", remark.Sentence);
        Assert.Equal(3, Assert.Single(remark.Places).Bar);
        Assert.Equal("C6", HarmonicAnalysis.Of(song).Chords[2].Reading.Chord.ToString());
    }

    [Theory]
    [InlineData("| C | Am7 | F | C |")]
    [InlineData("| C | Em7 | F | G7 | C |")]
    [InlineData("| C | Csus4 | C | G | C |")]
    [InlineData("| C | G/B | Am | C/G | F | C |")]
    public void PlainNamesHaveNoRival(string bars) =>
        Assert.DoesNotContain(HarmonyRemarks.Of(Tune.In("C major", bars)), r => r.Kind == RemarkKind.OtherName);

    private static IReadOnlyList<NameInContext> Rank(string notes, string key, string? before, string? after)
    {
        var names = notes.Split(' ').Select(PitchName.Parse).ToList();
        return NamesInContext.Rank(names, names[0], Key.Parse(key), before is null ? null : ChordSymbol.Read(before), after is null ? null
            : ChordSymbol.Read(after));
    }
}
