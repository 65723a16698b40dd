using CsCheck;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;

namespace Harkbook.Music.Tests.Songs.Rebarring;

/// <summary>A section's border moved from bar to bar, and a section that is made like another. Expected by hand, from docs/song-file.md.</summary>
public class MovedBorderTests
{
    private const string Text = """
        title T
        ; first
        section    Intro
        anchors    1 = 0:01.000
        chords     | D  .  . . | G . . . |

        ; the singing starts
        section    Verse 1   ~heard 70%
        anchors    1 = 0:05.000   3 = 0:09.000
        chords     | A . . . | D . . . | G . . . |   ; low

        section    Bridge
        chords     |  Em . |  Am .  |
        section    Verse 2 like Verse 1
        ; the end

        """;

    private static readonly SongDocument Song = SongText.Parse(Text, "t");

    [Fact]
    public void BarsGoOverWithTheirTimesAndTheRestStays()
    {
        var moved = SongRebarring.MoveBorder(Song, 2, 5);
        Assert.Equal([2, 2, 3, 3], moved.Song!.Sections.Select(s => s.Bars.Length));
        Assert.Equal("D G A D G Em Am A D G", Chords(moved));
        Assert.Equal([5, 9], moved.Song.Sections.SelectMany(s => s.Anchors).Skip(1).Select(a => a.At.Value));
        Assert.Equal(1, moved.Song.Sections[2].Anchors.Single().Bar);
        Assert.StartsWith(Text.Split("\n\n")[0] + "\n", moved.Text);
        Assert.EndsWith("; the end\n", moved.Text);
        Assert.Equal(Standing.Decided, moved.Song.Sections[2].Standing);
        Assert.Equal(StandingKind.Heard, moved.Song.Sections[1].Standing.Kind);
    }

    [Fact]
    public void ASectionLikeOneThatKeepsItsBarsStaysAsItIs()
    {
        var moved = SongRebarring.MoveBorder(SongText.Parse(Text.Replace("like Verse 1", "like Intro"), "t"), 2, 5);
        Assert.EndsWith("section    Verse 2 like Intro\n; the end\n", moved.Text);
    }

    /// <summary>A section starts in the song's key, so bars that go over take their key with them, and those that stay keep theirs.</summary>
    [Fact]
    public void EachBarKeepsItsKey()
    {
        var song = SongText.Parse(Text.Replace("title T", "title T\nkey D major").Replace("; low", "; low\n    key        A major from 2"), "t");
        var moved = SongRebarring.MoveBorder(song, 2, 4);
        Assert.Equal("D D D A A D D D A A", Keys(song));
        Assert.Equal("D D D A A D D D A A", Keys(moved));
    }

    [Theory]
    [InlineData(0, 2, "first section")]
    [InlineData(1, 1, "bar 2 to 5")]
    [InlineData(1, 6, "bar 2 to 5")]
    public void EachKeepsABar(int section, int firstBar, string said) =>
        Assert.Contains(said, Assert.Throws<RebarException>(() => SongRebarring.MoveBorder(Song, section, firstBar)).Message);

    /// <summary>Whatever the song: each bar keeps all that starts in it, and the border lies where it was asked for.</summary>
    [Fact]
    public void AnyBorderOfAnySong() => Gen.Select(SongGen.Songs, Gen.Int[0, 99], Gen.Int[0, 99]).Sample((song, which, where) =>
    {
        var document = SongText.Parse(SongText.Write(song), "t");
        song = document.Song!;
        if (song.Sections.Length < 2)
            return;
        var section = 1 + which % (song.Sections.Length - 1);
        var (first, last) = (song.Sections.Take(section - 1).Sum(s => s.Bars.Length) + 2, song.Sections.Take(section + 1).Sum(s => s.Bars.Length));
        if (last < first)
            return;
        var bar = first + where % (last - first + 1);

        var moved = SongRebarring.MoveBorder(document, section, bar);

        Assert.True(moved.Song is not null, $"{document.Text}\n-----\n{moved.Text}");
        Assert.Equal(bar - 1, moved.Song.Sections.Take(section).Sum(s => s.Bars.Length));
        Assert.Equal(song.Bars.Select(Starts), moved.Song.Bars.Select(Starts));
        Assert.Equal(song.Bars.Select(b => song.KeyAt(b.Number)), moved.Song.Bars.Select(b => moved.Song.KeyAt(b.Number)));
        Assert.Equal(song.Sections.SelectMany(s => s.Anchors).Select(a => a.At), moved.Song.Sections.SelectMany(s => s.Anchors).Select(a => a.At));
    }, iter: 200);

    [Fact]
    public void LikeAnotherTakesOverWhatWasHeardAndKeepsWhatWasDecided()
    {
        const string Verses = """
            title T
            section    Verse 1
            chords     | A . . . | D . . . |
            strum throughout | d du |
            section    B   ~heard 80%
            anchors    1 = 0:09.000
            chords     | A . . . | D . . G |   ~heard 60%  ~bar 2 beat 4 decided  ; hm
            strum      | d d . d | d . . . |   ~heard 40%
            sung       | la . . . | . . . . |

            """;
        var made = SongText.Parse(Verses, "t").WithSectionLike(1, 0);
        Assert.Equal("""
            title T
            section    Verse 1
            chords     | A . . . | D . . . |
            strum throughout | d du |
            section    B like Verse 1
            anchors    1 = 0:09.000
            ; hm
            sung       | la . . . | . . . . |
            chords from 2 | D . . G |

            """, made.Text);
        Assert.Equal(made.Song!.Sections[0].Bars[0].Strums, made.Song.Sections[1].Bars[0].Strums);
    }

    [Fact]
    public void ASectionOfOtherBarsIsToldSo() => Assert.Contains("Move its border first",
        Assert.Throws<ArgumentException>(() => Song.WithSectionLike(2, 0 + 1)).Message);

    private static string Keys(SongDocument document) => string.Join(' ', document.Song!.Bars.Select(b => document.Song.KeyAt(b.Number).Tonic));

    private static string Chords(SongDocument document) => string.Join(' ', document.Song!.Bars.SelectMany(b => b.Chords).Select(c => c.Value.Name));

    private static string Starts(Bar bar) => string.Join('\n', (string[])[$"{bar.Number} {bar.Meter}", .. Told(bar.Chords), .. Told(bar.Strums),
        .. Told(bar.Sung), .. Told(bar.Tune), .. Told(bar.Harp), .. Told(bar.Picked)]);

    private static IEnumerable<string> Told<T>(IEnumerable<Claim<T>> claims) => claims.Select(c => $"{c.Start} {c.Value} {c.Standing}");
}
