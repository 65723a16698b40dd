using Harkbook.Listening.Reading;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Reading;

/// <summary>What a person stands behind is claimed at its time; what was only heard isn't. Times are counted by hand: 120 beats a minute from 0:01.</summary>
public class SongClaimsTests
{
    private const string Text = """
        title Low Lamp
        pitch A4 = 442.0 Hz  ~heard 90%
        tuning D2 A2 D3 G3 A3 D4
        capo 2  ~heard 40%
        meter 4/4
        tempo 120  ~heard 75%
        key D major

        section Verse
        anchors 1 = 0:01
        anchors 3 = 0:05  ~heard 80%
        chords | D . . . | G . . . | D . A . | D . . . |  ~heard 70% ~bar 3 beat 3 decided
        section Bridge  ~heard 40%
        anchors 1 = 0:09
        key A minor from 2
        chords | Am . . . | Am . . . |  ~heard 50%
        """;

    private static readonly Claims Read = SongClaims.Of(SongText.Parse(Text, "t.hark").Song!);

    [Fact]
    public void FactsThatWereDecidedAreClaimedAndHeardOnesArent()
    {
        Assert.Equal("D2 A2 D3 G3 A3 D4", Read.Tuning!.ToString());
        Assert.Equal("4/4", Read.Meter.ToString());
        Assert.Null(Read.ReferencePitch);
        Assert.Null(Read.Capo);
        Assert.Null(Read.Tempo);
        Assert.Null(Read.HarpKey);
    }

    [Fact]
    public void DecidedAnchorsAreBeats() =>
        Assert.Equal([new BeatClaim(Seconds.FromSeconds(1), 1), new(Seconds.FromSeconds(9), 1)], Read.Beats);

    [Fact]
    public void ADecidedChordIsClaimedOverItsTime()
    {
        var chord = Assert.Single(Read.Chords);
        Assert.Equal(("A", 6.0, 7.0), (chord.Chord.ToString(), Math.Round(chord.Start.Value, 6), Math.Round(chord.End.Value, 6)));
    }

    [Fact]
    public void KeysAreClaimedWhereTheyHold() => Assert.Equal(
        [("D major", 1.0, 9.0), ("D major", 9.0, 11.0), ("A minor", 11.0, 13.0)],
        Read.Keys.Select(k => (k.Key.ToString(), Math.Round(k.Start.Value, 6), Math.Round(k.End.Value, 6))));

    [Fact]
    public void AHeardBorderIsNoClaim() => Assert.Empty(Read.Borders);
}
