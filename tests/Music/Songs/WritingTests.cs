using CsCheck;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

public class WritingTests
{
    [Fact]
    public void AWrittenSongReadsBackEqual() => SongGen.Songs.Sample(song =>
    {
        var text = SongText.Write(song);
        var read = SongText.Parse(text, "song.hark");
        Assert.False(read.Diagnostics.Any(d => d.Severity == Severity.Error),
            string.Join('\n', read.Diagnostics.Where(d => d.Severity == Severity.Error)) + "\n" + text);
        Assert.True(song == read.Song, text);
    }, iter: 600);

    [Fact]
    public void WritingTwiceGivesTheSameText() => SongGen.Songs.Sample(song =>
    {
        var text = SongText.Write(song);
        Assert.Equal(text, SongText.Write(SongText.Parse(text, "song.hark").Song!));
    }, iter: 100);

    [Fact]
    public void TheExampleReadsBackEqual()
    {
        var song = SongText.Parse(Examples.Ferry, "ferry.hark").Song!;
        Assert.Equal(song, SongText.Parse(SongText.Write(song), "ferry.hark").Song);
    }

    /// <summary>Symbols may hold commas and brackets, which cells use too.</summary>
    [Theory]
    [InlineData("1 3 5 b7 b9 #11")]
    [InlineData("1 3 b5 b7 #9")]
    [InlineData("1 b3 5 7")]
    [InlineData("1 3 5 7 9 #11 13")]
    [InlineData("1 5 b7")]
    public void EveryChordSymbolFitsACell(string degrees)
    {
        var chord = Chord.Of(PitchName.Parse("Bb"), ChordQuality.FromDegrees(degrees), PitchName.Parse("D"));
        var song = SongText.Parse("title T\nsection A\nchords | D |", "t").Song!;
        var use = new Claim<ChordUse>(Beats.Zero, Beats.Fraction(1, 2), new(chord, ChordSymbol.Write(chord), null), Standing.Decided);
        var changed = song with { Sections =
            [song.Sections[0] with { Bars = [song.Bars.First() with { Chords = [use, use with { Start = Beats.Fraction(1, 2) }] }] }] };
        Assert.Equal(changed, SongText.Parse(SongText.Write(changed), "t").Song);
    }
}
