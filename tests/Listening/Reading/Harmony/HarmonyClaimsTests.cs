using Harkbook.Listening.Estimators;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Reading;
using Harkbook.Listening.Reading.Harmony;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Reading.Harmony;

/// <summary>What a claim of a chord or a key changes, on evidence made by hand: each span says how much likelier some chords are than all others.</summary>
public class HarmonyClaimsTests
{
    private const double Span = 0.5;
    private const int PerBar = 4;

    [Fact]
    public void AClaimedChordIsHeldWhereItIsClaimed()
    {
        var read = Read(Bars("C", "C", "C", "C"), Chord("Ebm", 2.3, 4));

        Assert.Equal(["C", "Ebm", "C"], read.Chords.Select(c => c.Chord.Best.ToString()));
        Assert.Equal((2.3, 4.0), (read.Chords[1].Start.Value, read.Chords[1].End.Value));
        Assert.Equal(1, read.Chords[1].Chord.Confidence);
    }

    // A chord on A is major in D (its fifth step) and minor in F (its third): common practice.
    [Theory]
    [InlineData("D major", "A")]
    [InlineData("F major", "Am")]
    public void AClaimedKeyDecidesBetweenChordsThatAreHeardAlike(string key, string chord)
    {
        var read = Read(Bars("D5", "A Am", "D5", "A Am"), new Claims { Keys = [new(default, Seconds.FromSeconds(8), Key.Parse(key))] });

        Assert.Equal(key, Assert.Single(read.Keys).Key.Best.ToString());
        Assert.Equal(["D5", chord, "D5", chord], read.Chords.Select(c => c.Chord.Best.ToString()));
    }

    // A major chord on A or a minor one, heard alike, at the start and the end: A major or A minor (common practice: the home chord opens and closes).
    [Theory]
    [InlineData("A", "A major")]
    [InlineData("Am", "A minor")]
    public void TheKeyFollowsOneDecidedChord(string chord, string key)
    {
        var evidence = Bars("A Am", "E", "A Am", "E", "A Am");

        Assert.Equal(key, Read(evidence, Chord(chord, 0, 2)).Keys[0].Key.Best.ToString());
    }

    [Fact]
    public void WhatWasHeardAsAClaimedChordWasIsReadAgain()
    {
        var evidence = Bars("Em:9 C:8.8", "D", "Em:9 C:8.8", "D");
        Assert.Equal(["Em", "D", "Em", "D"], Read(evidence, Claims.None).Chords.Select(c => c.Chord.Best.ToString()));

        var read = Read(evidence, Chord("C", 0, 2));

        Assert.Equal(["C", "D", "C", "D"], read.Chords.Select(c => c.Chord.Best.ToString()));
    }

    [Fact]
    public void FarFromAClaimNothingChanges()
    {
        var evidence = Bars("C", "F", "G", "C", "C", "F", "G", "C");
        var (free, told) = (Read(evidence, Claims.None), Read(evidence, Chord("Am", 0, 2)));

        Assert.Equal(free.Chords.Skip(1).Select(c => c.Chord.Best), told.Chords.Skip(1).Select(c => c.Chord.Best));
    }

    [Fact]
    public void ARivalIsNamedWithItsOdds()
    {
        var posteriors = Read(Bars("C", "G:9 G/B:6", "C", "C"), Claims.None).Posteriors!;
        ChordOdds Of(string chord) => posteriors.Of(ChordSymbol.Read(chord), Seconds.FromSeconds(2), Seconds.FromSeconds(4))!.Value;

        Assert.True(Of("G").LogOdds > 0);
        Assert.True(Of("G/B").LogOdds < 0);
        Assert.Equal("G", Of("G/B").Rival.ToString());
        Assert.Equal("G/B", Of("G").Rival.ToString());
        Assert.Equal(-Of("G").LogOdds, Of("G/B").LogOdds, 1e-9);
        Assert.True(Of("Am").LogOdds < Of("G/B").LogOdds);
    }

    [Fact]
    public void WhatIsChosenIsTheLikeliestAndAllSharesMakeAtMostOne()
    {
        var read = Read(Bars("C:8 Am:7.9", "F:8 Dm:7.9", "G", "C:8 Em:7"), Claims.None);

        Assert.All(read.Chords, c => Assert.InRange(c.Chord.Candidates.Sum(x => x.Confidence), c.Chord.Confidence, 1 + 1e-9));
    }

    private static ReadHarmony Read(WeighedChords weighed, Claims claims) =>
        HarmonyReader.Trained().Read(weighed, weighed.Spans[^1].End, claims);

    private static Claims Chord(string symbol, double start, double end) =>
        new() { Chords = [new(Seconds.FromSeconds(start), Seconds.FromSeconds(end), ChordSymbol.Read(symbol))] };

    /// <summary>A bar a text: chords, each with how many natural log units it lies before all that aren't named (8 where nothing is said).</summary>
    private static WeighedChords Bars(params string[] bars)
    {
        var rows = bars.SelectMany(bar => Enumerable.Repeat(Row(bar), PerBar)).ToArray();
        var even = Enumerable.Repeat(1.0 / 12, 12).ToArray();
        return new(
            [.. rows.Select((_, i) => new ChordSpan(Seconds.FromSeconds(i * Span), Seconds.FromSeconds((i + 1) * Span), i % PerBar == 0 ? SpanPlace.Downbeat
                : SpanPlace.Beat))],
            rows,
            [.. rows.Select((_, i) => i % PerBar == 0 ? 0.5 : 0.05)],
            [.. rows.Select(_ => new PitchClassContent(even, even, even))],
            null);
    }

    private static double[] Row(string bar)
    {
        var row = new double[ChordVocabulary.States.Length];
        foreach (var named in bar.Split(' ').Select(n => n.Split(':')))
            row[ChordVocabulary.Nearest(ChordSymbol.Read(named[0]))] = named.Length > 1
                ? double.Parse(named[1], System.Globalization.CultureInfo.InvariantCulture) : 8;
        return row;
    }
}
