using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Winds;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Instruments;

public class FingeredWindTests
{
    private static readonly FingeredWind InD = FingeredWind.Of(WindKind.Whistle, PitchName.Parse("D"));

    // Whistle guides: all six closed is D, lifting from the bottom gives E F# G A B C#, blowing harder the octave; C natural is cross-fingered.
    [Theory]
    [InlineData("D5", "●●●●●●")]
    [InlineData("E5", "●●●●●○")]
    [InlineData("F#5", "●●●●○○")]
    [InlineData("G5", "●●●○○○")]
    [InlineData("A5", "●●○○○○")]
    [InlineData("B5", "●○○○○○")]
    [InlineData("C#6", "○○○○○○")]
    [InlineData("C6", "○●●○○○")]
    [InlineData("G6", "●●●○○○+")]
    public void AWhistleInDIsFingeredSo(string pitch, string fingering) =>
        Assert.Equal(fingering, InD.FingeringsFor(Pitch.Parse(pitch)).First().ToString());

    // Home and a fourth up are easy on a whistle (common practice): D and G major need no half hole on one in D, Eb major does.
    [Theory]
    [InlineData("D5 E5 F#5 G5 A5 B5 C#6 D6", 0)]
    [InlineData("G5 A5 B5 C6 D6 E6 F#6 G6", 0)]
    [InlineData("Eb5 F5 G5 G#5 Bb5 C6 D6 Eb6", 5)]
    public void SomeKeysNeedHalfHoles(string scale, int halfHoles) =>
        Assert.Equal(halfHoles, WindChooser.Rank(scale.Split(' ').Select(Pitch.Parse), [InD])[0].Count(WindTechnique.HalfHoled));

    // A whistle in C lies a tone below one in D, a low one in D an octave below, one in G a fourth above (common practice).
    [Theory]
    [InlineData("C", 0, "C5")]
    [InlineData("Bb", 0, "Bb4")]
    [InlineData("G", 0, "G5")]
    [InlineData("D", -1, "D4")]
    [InlineData("F", -1, "F4")]
    public void EveryKeyHasItsLowestNote(string key, int octave, string lowest)
    {
        var wind = FingeredWind.Of(WindKind.Whistle, PitchName.Parse(key), octave);
        Assert.Equal(lowest, wind.Fingerings[0].Pitch.ToString());
        Assert.Equal("●●●●●●", wind.Fingerings[0].ToString());
    }

    [Fact]
    public void TheBestWhistleForATuneIsTheOneInItsKey()
    {
        var tune = "A4 B4 C#5 D5 E5 F#5 G#5".Split(' ').Select(Pitch.Parse);
        var best = WindChooser.Rank(tune, Harmonica.UsualKeys.Select(k => FingeredWind.Of(WindKind.Whistle, k)))[0];
        Assert.Equal(("A", 0.0, 7), (best.Wind.Name, best.Cost, best.Count(WindTechnique.Plain)));
    }

    [Fact]
    public void WhatIsOutOfRangeIsSaid() => Assert.Equal(1, WindChooser.Rank([Pitch.Parse("C5"), Pitch.Parse("D5")], [InD])[0].NotThere);

    [Fact]
    public void EveryRowOfTheTableIsWhole()
    {
        Assert.All(WindKind.All.SelectMany(k => k.InD), f =>
        {
            Assert.Matches("^[xoh]+$", f.Holes);
            Assert.Contains(f.Source, new[] { "W", "CP", "M" });
        });
        Assert.All(WindKind.All, k => Assert.Single(k.InD.Select(f => f.Holes.Length).Distinct()));
        Assert.Equal(Enumerable.Range(74, 22), WindKind.Whistle.InD.Select(f => f.Pitch.Midi).Distinct());
    }

    // Worked by hand: a made-up pipe of two holes.
    [Fact]
    public void AnyTableIsAnInstrument()
    {
        var pipe = Assert.Single(WindKind.ReadTable("reed pipe\tpipe\tD5\txx\tlow\tCP\nreed pipe\tpipe\tE5\txo\tlow\tCP\nreed pipe\tpipe\tF5\tox\tlow\tCP\n"));
        var inC = FingeredWind.Of(pipe, PitchName.Parse("C"));
        Assert.Equal("C5 ●●, D5 ●○, Eb5 ○●", string.Join(", ", inC.Fingerings.Select(f => $"{f.Pitch} {f}")));
        Assert.Equal(WindTechnique.Crossed, inC.Fingerings[2].Technique);
    }
}
