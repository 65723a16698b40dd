using Harkbook.Audio.Signals;

namespace Harkbook.Sounding.Tests;

/// <summary>
/// What the hands do, measured in the sound. Fret n of the open G3 string is 195.998·2^(n/12) Hz (equal temperament about A4 = 440 Hz);
/// a bar is two seconds.
/// </summary>
public class TechniqueSoundTests
{
    private const double G3 = 195.9977;
    private const string Facts = "title Sample\npitch A4 = 440 Hz\ntuning E2 A2 D3 G3 B3 E4\ncapo none\nmeter 4/4\ntempo 120\nkey C major\n";

    [Theory]
    [InlineData("7b9", 1.0, 9)]
    [InlineData("7b8", 1.0, 8)]
    [InlineData("7b7+1/2", 1.0, 7.5)]
    [InlineData("7pb9", 0.05, 9)]
    [InlineData("7b9r7", 1.0, 9)]
    [InlineData("7b9r7", 3.45, 7)]
    [InlineData("7b9", 3.4, 9)]
    public void ABendSoundsAsTheFretThatItNames(string cell, double at, double fret) =>
        Assert.InRange(Sample.CentsAbove(Of($"{cell} | ."), 0, at, 0.5, Fret(fret)), -3, 3);

    [Fact]
    public void ABendStartsWhereItIsFretted() => Assert.InRange(Sample.CentsAbove(Of("7b9 | ."), 0, 0, 0.05, Fret(7)), -40, 40);

    /// <summary>Guitarists' vibrato wavers some five or six times a second (common practice).</summary>
    [Fact]
    public void VibratoWaversFiveOrSixTimesASecond()
    {
        var sound = Of("7~ | .");
        var pitches = Enumerable.Range(0, 100).Select(i => CentsNear(sound, 0.6 + 0.02 * i, Fret(7))).ToArray();
        var mean = pitches.Average();
        Assert.InRange(mean, -5, 5);
        Assert.InRange(pitches.Max() - pitches.Min(), 20, 60);
        Assert.InRange(pitches.Zip(pitches.Skip(1)).Count(p => p.First < mean && p.Second >= mean) / 2.0, 5, 6);
    }

    /// <summary>Partial k of a string sounds k times its frequency; nodes of 2, 3, 4 and 5 lie at frets 12, 7, 5 and 4 (common practice).</summary>
    [Theory]
    [InlineData("<12>", 2 * G3)]
    [InlineData("<7>", 3 * G3)]
    [InlineData("<5>", 4 * G3)]
    [InlineData("<4>", 5 * G3)]
    [InlineData("2<14>", 2 * G3 * 1.122462)]
    public void AHarmonicSoundsItsPartialAlone(string cell, double frequency)
    {
        var sound = Of($"{cell} | .");
        Assert.InRange(Sample.CentsAbove(sound, 0, 0.2, 0.8, frequency), -3, 3);
        Assert.True(Sample.Level(sound, 0, 0.2, 0.8, G3) < 0.02 * Sample.Level(sound, 0, 0.2, 0.8, frequency));
    }

    [Fact]
    public void AMutedNoteIsShortAndHasNoPitch()
    {
        var (muted, open) = (Of("x | ."), Of("0 | ."));
        Assert.True(Energy(muted, 0.3, 0.2) < 1e-4 * Energy(muted, 0, 0.2));
        double Tonal(Signal s) => Sample.Level(s, 0, 0, 0.25, G3) * Sample.Level(s, 0, 0, 0.25, G3) / Energy(s, 0, 0.25);
        Assert.True(Tonal(muted) < 0.15 * Tonal(open));
    }

    [Fact]
    public void AGhostNoteIsMuchSofter() => Assert.InRange(Decibels(Of("(5) | ."), Of("5 | ."), 0.1), -20, -6);

    [Fact]
    public void WhatIsLetRingRingsOverAChangeOfChord()
    {
        const string chords = "shape Am x02210\nshape Em 022000\nsection A\nchords | Am | Em |\npick\n  G3 | {0} | . |\n";
        var (ring, plain) = (Render(Facts + chords.Replace("{0}", "2ring")), Render(Facts + chords.Replace("{0}", "2")));
        Assert.True(Sample.Level(ring, 0, 3, 0.8, Fret(2)) > 30 * Sample.Level(plain, 0, 3, 0.8, Fret(2)));
        Assert.InRange(Sample.Level(ring, 0, 1, 0.5, Fret(2)) / Sample.Level(plain, 0, 1, 0.5, Fret(2)), 0.5, 2);
    }

    [Theory]
    [InlineData("h7")]
    [InlineData("s7")]
    [InlineData("t7")]
    [InlineData("p3")]
    public void HammeredPulledSlidAndTappedNotesAreNotPluckedAgain(string cell)
    {
        var (bound, picked) = (Of($"5 {cell} | ."), Of($"5 {cell[1..]} | ."));
        Assert.True(Brightness(bound, 1, 0.03) < 0.3 * Brightness(picked, 1, 0.03));
        Assert.InRange(Sample.CentsAbove(bound, 0, 1.2, 0.8, Fret(double.Parse(cell[1..]))), -3, 3);
    }

    [Theory]
    [InlineData("/7", 0, 5)]
    [InlineData("\\7", 0, 9)]
    [InlineData("7/", 3.95, 10)]
    [InlineData("7\\", 3.95, 4)]
    public void ASlideFromOrToNowherePassesTheFretsBeside(string cell, double at, double fret)
    {
        var sound = Of($"{cell} | .");
        Assert.True(Sample.Level(sound, 0, at, 0.05, Fret(fret)) > Sample.Level(sound, 0, at, 0.05, Fret(7)));
        Assert.InRange(Sample.CentsAbove(sound, 0, 1, 1, Fret(7)), -3, 3);
    }

    [Fact]
    public void AGraceNoteIsOverWhenItsNoteBegins()
    {
        var sound = Of("_ 3h5 | .");
        Assert.Equal(1 - 0.065, Sample.FirstOver(sound, 0, 0, 0.001), 0.005);
        Assert.True(Sample.Level(sound, 0, 0.94, 0.06, Fret(3)) > Sample.Level(sound, 0, 0.94, 0.06, Fret(5)));
        Assert.InRange(Sample.CentsAbove(sound, 0, 1.1, 0.8, Fret(5)), -3, 3);
    }

    private static double Fret(double fret) => G3 * Math.Pow(2, fret / 12);

    private static double CentsNear(Signal sound, double at, double frequency) =>
        Enumerable.Range(-45, 91).MaxBy(c => Sample.Level(sound, 0, at, 0.06, frequency * Math.Pow(2, c / 1200.0)));

    private static double Energy(Signal sound, double from, double length) =>
        sound.Channels[0].Skip((int)(from * sound.Rate.Hertz)).Take((int)(length * sound.Rate.Hertz)).Sum(x => (double)x * x);

    /// <summary>Energy of the differences between samples: the high partials, which only a fresh pluck has.</summary>
    private static double Brightness(Signal sound, double from, double length)
    {
        var samples = sound.Channels[0].Skip((int)(from * sound.Rate.Hertz)).Take((int)(length * sound.Rate.Hertz)).ToArray();
        return samples.Zip(samples.Skip(1), (a, b) => (double)(b - a) * (b - a)).Sum();
    }

    /// <summary>How far one sound's start lies over another's before either is brought to a loudness: a loud chord follows both.</summary>
    private static double Decibels(Signal a, Signal b, double length) => 10 * Math.Log10(Energy(a, 0, length) / Energy(b, 0, length));

    private static Signal Of(string cells) => Render(Facts + $"section A\npick\n  E2 | . | . | 3 | .|\n  G3 | {cells} | _ | . |\n");

    private static Signal Render(string text) => Audition.Render(Sample.Song(text), new() { Parts = AuditionParts.Guitar }, CancellationToken.None);
}
