using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>Notes of a tune, read and written; pitches by MIDI number (C4 is 60, A4 69: General MIDI), sizes of bends counted by hand.</summary>
public class TuneTests
{
    private const string Head = "title T\ncapo 2\nkey C major\ntune fiddle\nsection A\nchords | C | G |\n";

    [Theory]
    [InlineData("A4", 69, Approach.Straight, 0, SlideOff.None)]
    [InlineData("sF#4", 66, Approach.FromNoteBefore, 0, SlideOff.None)]
    [InlineData("/Bb3", 58, Approach.FromBelow, 0, SlideOff.None)]
    [InlineData("\\C-1\\", 0, Approach.FromAbove, 0, SlideOff.Down)]
    [InlineData("Eb4b+1/2", 63, Approach.Straight, 50, SlideOff.None)]
    [InlineData("E4bF#4+1/2r~/", 64, Approach.Straight, 250, SlideOff.Up)]
    [InlineData("A4pbB4", 69, Approach.Straight, 200, SlideOff.None)]
    public void ANoteIsReadAndWritten(string text, int midi, Approach approach, int bent, SlideOff off)
    {
        var note = TuneNote.Parse(text);
        Assert.Equal((midi, approach, Cents.FromCents(bent), off), (note.Pitch.Midi, note.Approach, note.Bend.By, note.SlideOff));
        Assert.Equal(text, note.ToString());
    }

    [Theory]
    [InlineData("A")]
    [InlineData("H4")]
    [InlineData("A4bA4")]
    [InlineData("A4bG4")]
    [InlineData("A4bE5")]
    [InlineData("G#9")]
    [InlineData("A4r")]
    [InlineData("hA4")]
    public void WhatIsNoNoteIsRefused(string text) => Assert.False(TuneNote.TryParse(text, out _));

    [Fact]
    public void NotesShareTheGridAndHoldOverTheBarLine()
    {
        var song = SongText.Parse(Head + "tune | G4 A4,. _ C5 | . . G4?70 . |", "t").Song!;
        Assert.Equal(["G4", "A4", "C5", "G4"], song.Bars.SelectMany(b => b.Tune).Select(t => t.Value.ToString()));
        Assert.Equal([1, 1, 3, 2], song.Bars.SelectMany(b => b.Tune).Select(t => (int)t.Length.Value));
        Assert.Equal(Standing.Heard(0.7), song.Bars.Last().Tune[0].Standing);
        Assert.Equal(TunePlayer.Fiddle, song.TunePlayer!.Value);
    }

    [Fact]
    public void ASectionMayHaveAnotherPlayerAndHandsItOn()
    {
        var song = SongText.Parse(Head + "tune | G4 | A4 |\nsection B like A\ntune lead guitar\nsection C like B\nsection D like A", "t").Song!;
        Assert.Equal([TunePlayer.Fiddle, TunePlayer.LeadGuitar, TunePlayer.LeadGuitar, TunePlayer.Fiddle], song.Sections.Select(song.TunePlayerIn));
    }

    /// <summary>A whole step above: what the hand calls C under a capo on fret 2 sounds as D (two semitones).</summary>
    [Fact]
    public void UnderHandNamesTheTuneIsNamedAsTheHandNamesItsChords()
    {
        var song = SongText.Parse(Head.Replace("key C", "names hand\nkey C", StringComparison.Ordinal) + "tune | C5 | B4 |", "t").Song!;
        Assert.Equal(["D5", "C#5"], song.Bars.SelectMany(b => b.Tune).Select(t => t.Value.Pitch.ToString()));
        Assert.Contains("| C5 | B4 |", SongText.Write(song).Replace(" . . .", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    /// <summary>From fret 2 to fret 4 all that sounds goes up by two semitones: G4 to A4.</summary>
    [Fact]
    public void APupilsCapoMovesTheTuneWithTheShapes()
    {
        var song = SongText.Parse(Head + "tune | G4 | A4 |\n", "t").Song!;
        Assert.Equal([69, 71], CapoChange.SameShapes(song, Capo.At(4)).Bars.SelectMany(b => b.Tune).Select(n => n.Value.Pitch.Midi));
        Assert.True(CapoChange.TrySameSound(song, Capo.At(4), out var same, out _));
        Assert.Equal([67, 69], same.Bars.SelectMany(b => b.Tune).Select(n => n.Value.Pitch.Midi));
    }

    [Fact]
    public void ATransposedSongTakesItsTuneAlong()
    {
        var song = SongText.Parse(Head + "tune | G4b+1/2 | A4 |", "t").Song!;
        Assert.Equal(["Bb4b+1/2", "C5"], song.Transposed(Interval.Parse("m3")).Bars.SelectMany(b => b.Tune).Select(t => t.Value.ToString()));
    }
}
