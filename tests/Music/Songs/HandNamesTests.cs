using CsCheck;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>Files that write the hand's names under a capo. A capo raises every name by its frets in semitones; the names are worked by hand from
/// that.</summary>
public class HandNamesTests
{
    private const string Head = "title Lantern Hill\ntuning E2 A2 D3 G3 B3 E4\nmeter 4/4\ntempo 90\n";
    private const string Bars = "section Verse\nkey D major from 2\nchords | Am . G/B@low . | N.C. D7sus4 . . |\n";
    private const string Hand = Head + "capo 2\nnames hand\nkey A minor\nharp D\nshape Am x02210\nshape G/B@low x20003 ; as sung\n" + Bars;

    [Fact]
    public void TheSongHoldsWhatSounds()
    {
        var document = SongText.Parse(Hand, "lantern.hark");
        Assert.Empty(document.Diagnostics.Where(d => d.Severity != Severity.Hint));
        var song = document.Song!;
        Assert.Equal("B minor", song.Key.Value.ToString());
        Assert.Equal("E major", song.Sections[0].Keys.Single().Key.ToString());
        Assert.Equal(["Bm", "A/C#@low", "N.C.", "Esus4".Replace("sus4", "7sus4")], song.Bars.SelectMany(b => b.Chords).Select(c => c.Value.Name));
        Assert.Equal(["Bm", "A/C#@low"], song.Shapes.Select(s => s.Name));
        Assert.Equal("x02210", song.Bars.First().Chords[0].Value.Shape?.ToString());
        Assert.Equal("D", song.Harp!.Value.Key.ToString());
    }

    // Common practice: which of two spellings a capo gives is the one that players write, Bb for A at capo 1, F# minor for D minor at capo 4.
    [Theory]
    [InlineData("A major", 1, "Bb major")]
    [InlineData("G major", 1, "Ab major")]
    [InlineData("E minor", 1, "F minor")]
    [InlineData("D minor", 4, "F# minor")]
    [InlineData("C major", 4, "E major")]
    [InlineData("G mixolydian", 3, "Bb mixolydian")]
    [InlineData("C major", 12, "C major")]
    public void ACapoRaisesTheKey(string hand, int capo, string sounds)
    {
        Assert.Equal(sounds, SongText.Parse($"{Head}capo {capo}\nnames hand\nkey {hand}\n", "t").Song!.Key.Value.ToString());
        var plain = SongText.Parse($"{Head}capo {capo}\nkey {sounds}\n", "t").Song!;
        Assert.Equal(hand, CapoNames.Of(plain)!.Hand(plain.Key.Value).ToString());
    }

    [Fact]
    public void WithoutACapoBothNamesAreOne()
    {
        var song = SongText.Parse(Hand.Replace("capo 2", "capo none"), "t").Song!;
        Assert.Equal("A minor", song.Key.Value.ToString());
        Assert.Null(CapoNames.Of(song));
        Assert.Contains("names      hand\n", SongText.Write(song));
    }

    // A capo that stops only some strings raises them alone, so shapes have no name of the hand's.
    [Fact]
    public void APartialCapoHasOneName() => Assert.Null(CapoNames.Of(SongText.Parse(Head + "capo 2 on A2 D3 G3\n", "t").Song!));

    [Fact]
    public void AnyFileReadsBackTheSameInTheHandsNames() =>
        Gen.Select(Gen.Int[-6, 6], Gen.Int[0, Mode.All.Length - 1], Gen.Int[0, 12],
            SongGen.OneOf("Amin7", "C7/9", "F#m7b5/E@low", "Bb-9", "Ebmaj7", "Cb5", "B5", "N.C.", "G(b5)", "Dm/C", "E♭sus4"))
            .Sample((fifths, mode, capo, chord) =>
        {
            var key = new Key(PitchName.FromFifths(fifths), Mode.All[mode]);
            var shape = chord is "N.C." ? "" : $"shape {chord} x02210\n";
            var song = SongText.Parse($"{Head}capo {capo}\nnames hand\nkey {key}\n{shape}section A\nchords | {chord} . |\n", "t").Song!;
            var text = SongText.Write(song);
            Assert.Equal(song, SongText.Parse(text, "t").Song);
            Assert.Contains($"key        {key}\n", text);
            Assert.Contains(chord.Replace('♭', 'b'), text.Replace('♭', 'b'));
        });

    /// <summary>A whole tone lower by hand: Bm is Am, A/C# is G/B, F#4 is E4; marks, comments, columns and all else stay.</summary>
    [Fact]
    public void AFileIsWrittenOverToTheHandsNames()
    {
        const string sounding = Head + "capo 2 ; brass\nkey B minor  ~heard 80%\nharp D\nshape Bm  x02210\nshape A/C#@low x20003 ; as sung\nsection Verse\n"
            + "key E major from 2\nchords | Bm . A/C#@low?90 . | N.C.  E7sus4 . . |  ~heard 70%\ntune   | .  F#4 sB4,. _ | . |\n";
        var hand = SongText.Parse(sounding, "t").WithNames(hand: true)!;
        Assert.Equal(Head + "capo 2 ; brass\nnames      hand\nkey A minor  ~heard 80%\nharp D\nshape Am  x02210\nshape G/B@low  x20003 ; as sung\n"
            + "section Verse\nkey D major from 2\nchords | Am . G/B@low?90  . | N.C.  D7sus4 . . |  ~heard 70%\ntune   | .  E4  sA4,. _ | . |\n", hand.Text);
        Assert.Equal(SongText.Parse(sounding, "t").Song, hand.Song! with { HandNames = null });
        Assert.Same(hand, hand.WithNames(hand: true));
        Assert.Equal(hand.Song with { HandNames = null }, hand.WithNames(hand: false)!.Song);
    }

    [Theory]
    [InlineData("capo none")]
    [InlineData("capo 2 on A2 D3 G3")]
    public void WhereAChordHasOneNameNothingCanBeWrittenOver(string capo) =>
        Assert.Null(SongText.Parse($"{Head}{capo}\n{Bars}", "t").WithNames(hand: true));

    /// <summary>Whatever the song: the same sounds, whichever names its file writes.</summary>
    [Fact]
    public void AnySongSoundsTheSameUnderEitherName() => Gen.Select(SongGen.Songs, Gen.Int[1, 11]).Sample((any, capo) =>
    {
        var plain = SongText.Parse(SongText.Write(any with { Capo = new(Capo.At(capo), Standing.Decided), HandNames = null }), "t");
        if (plain.Song is not { } song || plain.WithNames(hand: true) is not { } hand)
            return;
        Assert.True(hand.Song is not null && song == hand.Song with { HandNames = null }, $"{plain.Text}\n-----\n{hand.Text}");
    }, iter: 200);

    [Fact]
    public void AnEditNamesWhatSoundsAndTheFileWritesTheHands()
    {
        var document = SongText.Parse(Hand, "t");
        AssertEdited(document.WithChord(2, Beats.Whole(3), "Bm"), "N.C. D7sus4 . .", "N.C. D7sus4 . Am");
        AssertEdited(document.WithShape("A/C#@low", Shape.Parse("x2003x")), "x20003 ;", "x2003x ;");
        AssertEdited(document.WithShape("F#", Shape.Parse("022100")), "x20003 ; as sung", "x20003 ; as sung\nshape      E         022100");
        AssertEdited(document.WithKeyChange(0, 2, Key.Parse("A major")), "key D major from 2", "key G major from 2");
        AssertEdited(document.WithFact(SongFact.Key, "D major"), "key A minor", "key C major");
        Assert.Equal("Bm", document.WithChord(2, Beats.Whole(3), "Bm").Song!.Bars.Last().Chords[^1].Value.Name);
        Assert.Equal("D major", document.WithFact(SongFact.Key, "D major").Song!.Key.Value.ToString());
    }

    private static void AssertEdited(SongDocument edited, string before, string after) => Assert.Equal(Hand.Replace(before, after), edited.Text);
}
