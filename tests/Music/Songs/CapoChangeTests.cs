using CsCheck;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

/// <summary>A song made over for another capo: either the sound stays or the shapes do. Notes are worked from strings and frets.</summary>
public class CapoChangeTests
{
    private const string Head = "title Lantern Hill\ntuning E2 A2 D3 G3 B3 E4\nmeter 4/4\ntempo 90\nharp Bb\n";
    private static readonly Song Hill = Song(Head
        + "capo 1\nkey Bb major\nshape Bb x02220\nshape Eb xx0232\nshape F@low 022100\nshape F@high 0.7.6.4.5.4\nsection A\nchords | Bb . Eb . | F@low . "
        + "F@high . |\n");

    [Fact]
    public void TheSameSoundTakesOtherShapesForTheSameChords()
    {
        Assert.True(CapoChange.TrySameSound(Hill, Capo.None, out var plain, out _));
        Assert.Equal(Capo.None, plain.Capo.Value);
        Assert.Equal(Hill.Key, plain.Key);
        Assert.Equal(Hill.Harp, plain.Harp);
        Assert.Equal(["Bb", "Eb", "F@low", "F@high"], plain.Bars.SelectMany(b => b.Chords).Select(c => c.Value.Name));
        Assert.All(plain.Bars.SelectMany(b => b.Chords), c => Assert.Null(ShapeContradiction.Of(c.Value.Shape!, Tuning.Standard, Capo.None, c.Value.Chord)));
        Assert.Equal(4, plain.Shapes.Select(s => s.Shape.WithoutFingers()).Distinct().Count());
        Assert.All(plain.Shapes, s => Assert.Equal(StandingKind.Assumed, s.Standing.Kind));
    }

    // Common practice: F major's shapes at capo 1 are E's, at capo 3 D's.
    [Theory]
    [InlineData(1, "022100")]
    [InlineData(3, "xx0232")]
    public void ACapoGivesOpenShapesBack(int capo, string frets)
    {
        var song = Song(Head + "capo none\nkey F major\nshape F 133211\nsection A\nchords | F |\n");
        Assert.True(CapoChange.TrySameSound(song, Capo.At(capo), out var moved, out _));
        Assert.Equal(frets, moved.Shapes[0].Shape.WithoutFingers().ToString());
    }

    [Fact]
    public void TheSameShapesMoveWhatSounds()
    {
        var moved = CapoChange.SameShapes(Hill, Capo.None);
        Assert.Equal(("A major", "A"), (moved.Key.Value.ToString(), moved.Harp!.Value.Key.ToString()));
        Assert.Equal(["A", "D", "E@low", "E@high"], moved.Bars.SelectMany(b => b.Chords).Select(c => c.Value.Name));
        Assert.Equal(Hill.Shapes.Select(s => s.Shape), moved.Shapes.Select(s => s.Shape));
        Assert.Equal(Hill.Tuning, moved.Tuning);
        Assert.Equal("B major", CapoChange.SameShapes(Hill, Capo.At(2)).Key.Value.ToString());
    }

    [Fact]
    public void TheHandsNamesStayWithTheShapes()
    {
        var hand = Song(Head + "capo 1\nnames hand\nkey A major\nshape A x02220\nsection A\nchords | A |\n");
        var text = SongText.Write(CapoChange.SameShapes(hand, Capo.At(4)));
        Assert.Contains("key        A major\n", text);
        Assert.Contains("shape      A         x02220\n", text);
        Assert.Equal("C# major", SongText.Parse(text, "t").Song!.Key.Value.ToString().Replace("Db", "C#"));
    }

    // E2 at capo 2 is F#2: without a capo fret 2 of the same string. D4 at capo 2's B string fret 1 is fret 3 without.
    [Fact]
    public void PickedNotesMoveToWhereTheySound()
    {
        var song = Song(Head + "capo 2\nkey E major\nsection A\npick\nB3 | 1 . h3 . |\nE2 | 0 . . . |\n");
        Assert.True(CapoChange.TrySameSound(song, Capo.None, out var moved, out _));
        Assert.Equal([(0, 2), (4, 3), (4, 5)], moved.Bars.Single().Picked.Select(p => (p.Value.StringIndex, p.Value.Fret)));
        Assert.Equal(Attack.HammeredOn, moved.Bars.Single().Picked[2].Value.Attack);
    }

    // Under capo 3 the B string starts at D4, so C4 (B3, fret 1) goes to the G string, which starts at Bb3: fret 2.
    [Fact]
    public void ANoteBelowItsStringGoesToTheNextOne()
    {
        var song = Song(Head + "capo none\nkey C major\nsection A\npick\nB3 | 1 . . . |\n");
        Assert.True(CapoChange.TrySameSound(song, Capo.At(3), out var moved, out _));
        Assert.Equal((3, 2), moved.Bars.Single().Picked.Select(p => (p.Value.StringIndex, p.Value.Fret)).Single());
    }

    // F4 and D4 of capo 1's two high strings: under capo 3 those start at G4 and D4, so F4 takes the B string's fret 3 and D4 the G string's 4; G at fret 7
    // beside an open B would be out of reach.
    [Fact]
    public void NotesTogetherStayInReach()
    {
        var song = Song(Head + "capo 1\nkey Bb major\nsection A\npick\nE4 | 0 |\nB3 | 2 |\n");
        Assert.True(CapoChange.TrySameSound(song, Capo.At(3), out var moved, out _));
        Assert.Equal([(3, 4), (4, 3)], moved.Bars.Single().Picked.Select(p => (p.Value.StringIndex, p.Value.Fret)));
    }

    [Fact]
    public void ANoteBelowAllStringsIsSaidAndNothingIsLost()
    {
        var song = Song(Head + "capo none\nkey E minor\nsection A\npick\nE2 | 0 . . . |\n");
        Assert.False(CapoChange.TrySameSound(song, Capo.At(3), out _, out var problem));
        Assert.Equal("E2, picked in bar 1, lies on no free string with the capo on fret 3", problem);
    }

    // A picked chord keeps its strings, so that what is held is what is picked: A's shape at capo 2 is B's barre at fret 2.
    [Fact]
    public void APickedChordKeepsItsStrings()
    {
        var song = Song(Head + "capo 2\nkey B major\nshape B x02220\nsection A\nchords | B |\npick\nA2 | 0 . . . |\n");
        Assert.True(CapoChange.TrySameSound(song, Capo.None, out var moved, out _));
        Assert.Equal("x24442", moved.Shapes[0].Shape.WithoutFingers().ToString());
        Assert.Equal((1, 2), moved.Bars.Single().Picked.Select(p => (p.Value.StringIndex, p.Value.Fret)).Single());
    }

    // What beginners learn for these chords (common practice): open shapes and full barres.
    [Theory]
    [InlineData(1, "A", "x02220")]
    [InlineData(2, "D", "xx0232")]
    [InlineData(1, "Bb", "x13331")]
    [InlineData(1, "F7", "131211")]
    [InlineData(2, "Bm", "x24432")]
    [InlineData(2, "C#m7", "x46454")]
    public void WithoutACapoAChordTakesTheShapeThatBeginnersLearn(int capo, string chord, string frets)
    {
        var song = Song($"{Head}capo {capo}\nkey A major\nshape {chord} x0000x\nshape G 320003\nsection A\nchords | {chord} |\n");
        Assert.True(CapoChange.TrySameSound(song, Capo.None, out var moved, out _));
        Assert.Equal(frets, moved.Shapes[0].Shape.WithoutFingers().ToString());
    }

    // G's shape at capo 2 sounds A2 C#3 E3 A3 C#4 A4. Picked on the low, D, G and B strings it is A2 E3 A3 C#4, which open A has on its A, D, G and B strings.
    [Fact]
    public void APickedPatternGoesWithTheShapeWhereItSoundsTheSame()
    {
        var song = Song(Head + "capo 2\nkey A major\nshape A 320003\nsection A\nchords | A |\npick\nB3 | . . . * |\nG3 | . . * . |\nD3 | . * . . |\nbass | * . "
            + ". . |\n");
        Assert.True(CapoChange.TrySameSound(song, Capo.None, out var moved, out _));
        Assert.Equal("x02220", moved.Shapes[0].Shape.WithoutFingers().ToString());
        Assert.Equal([(1, 0), (2, 2), (3, 2), (4, 2)], moved.Bars.Single().Picked.Select(p => (p.Value.StringIndex, p.Value.Fret)));
        Assert.Equal(Sounding(song), Sounding(moved));
    }

    // The definition: the same pitches sound as before, whichever strings they are on.
    [Fact]
    public void AnyPicksSoundAsTheyDid() => Gen.Select(Gen.Int[0, 5], Gen.Int[0, 7], Gen.Int[0, 4].Array[1, 6]).Sample((from, to, frets) =>
    {
        string[] strings = ["E4", "B3", "G3", "D3", "A2", "E2"];
        var block = string.Concat(frets.Select((f, i) => $"{strings[i]} | {f} . |\n"));
        var song = Song($"{Head}capo {from}\nkey G major\nsection A\npick\n{block}");
        if (CapoChange.TrySameSound(song, Capo.At(to), out var moved, out _))
            Assert.Equal(Sounding(song), Sounding(moved));
    });

    private static List<int> Sounding(Song song) =>
        [.. song.Bars.SelectMany(b => b.Picked)
            .Select(p => new Fretboard(song.Tuning.Value, song.Capo.Value).MidiAt(p.Value.StringIndex, p.Value.Fret)).Order()];

    private static Song Song(string text) => SongText.Parse(text, "lantern.hark").Song!;
}
