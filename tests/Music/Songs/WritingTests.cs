using CsCheck;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

public class WritingTests
{
    [Fact]
    public void AWrittenSongReadsBackEqual() => SongGen.Songs.Sample(song =>
    {
        var text = SongText.Write(song);
        var read = SongText.Parse(text, "song.hark");
        Assert.False(read.Diagnostics.Any(d => d.Severity == Severity.Error), string.Join('\n', read.Diagnostics.Where(d => d.Severity == Severity.Error)) + "\n" + text);
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
}
