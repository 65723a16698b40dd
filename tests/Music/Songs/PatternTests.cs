using System.Collections.Immutable;
using CsCheck;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>A strum or a picking pattern is written once, and bars say only what differs. Expected bars are the grammar of docs/song-file.md, by
/// hand.</summary>
public class PatternTests
{
    private const string Facts = "title T\ntuning E2 A2 D3 G3 B3 E4\nmeter 4/4\nshape Am x02210\nshape C x32010\nshape D xx0232\n";

    private static readonly ImmutableArray<string> AllFour = ["d . d u", "d . d u", "d . d u", "d . d u"];

    [Fact]
    public void AStrumThroughoutSoundsInEveryBar() =>
        Assert.Equal(AllFour.AsEnumerable(), Strums("section A\nchords | Am | C | Am | C |\nstrum throughout | d . d u |"));

    [Fact]
    public void APatternOfTwoBarsGoesRound() =>
        Assert.Equal(["d . . .", "d u d u", "d . . .", "d u d u", "d . . ."],
            Strums("section A\nchords | Am | C | Am | C | Am |\nstrum throughout | d . . . | d u d u |"));

    [Fact]
    public void ANamedPatternServesSeveralSections() =>
        Assert.Equal(["d . d u", "d . d u", ". . . .", "d . d u"],
            Strums("pattern Slow Roll | d . d u |\nsection A\nchords | Am | C |\nstrum Slow Roll\nsection B\nchords | Am | C |\nstrum Slow Roll from 2"));

    [Fact]
    public void BarsThatDifferAreWrittenAndTheOthersKeepTheirPlaceInThePattern() =>
        Assert.Equal(["d . . .", "x . . .", "d . . .", "d u d u"],
            Strums("section A\nchords | Am | C | Am | C |\nstrum throughout | d . . . | d u d u |\nstrum from 2 | x . . . |"));

    [Fact]
    public void BarsThatDifferMayStandBeforeTheirPattern() =>
        Assert.Equal(
            ["d . . .", "x . . .", "d . . .", "d u d u"],
            Strums("section A\nchords | Am | C | Am | C |\nstrum from 2 | x . . . |\nstrum throughout | d . . . | d u d u |"));

    [Fact]
    public void AnotherPatternTakesOverFromItsBar() =>
        Assert.Equal(["d . . .", "d . . .", "u . . .", "u . . ."],
            Strums("pattern Up | u . . . |\nsection A\nchords | Am | C | Am | C |\nstrum throughout | d . . . |\nstrum Up from 3"));

    [Fact]
    public void AShorterBarTakesThePatternsFirstBeatsAtTheirPace() =>
        Assert.Equal(["d . d u", "d .", "d . d u"],
            Strums("section A\nchords | Am | C | Am |\nmeter 2/4 from 2\nmeter 4/4 from 3\nstrum throughout | d . d u |"));

    [Fact]
    public void APatternForAnotherMeterSaysSo() =>
        Assert.Equal(["d u u", "d u u"], Strums("pattern Waltz in 3/4 | d u u |\nsection A\nmeter 3/4\nchords | Am | C |\nstrum Waltz"));

    [Fact]
    public void ASectionLikeAnotherTakesThePatternOverAndMayChangeABarOrAll()
    {
        const string verse = "section V\nchords | Am | C | Am |\nstrum throughout | d . d u |\nstrum from 3 | x . . . |\n";
        Assert.Equal(["d . d u", "d . d u", "x . . ."], Strums(verse + "section W like V").Skip(3));
        Assert.Equal(["d . d u", "u . . .", "x . . ."], Strums(verse + "section W like V\nstrum from 2 | u . . . |").Skip(3));
        Assert.Equal(["d . d u", "u . . .", "u . . ."], Strums(verse + "section W like V\nstrum throughout from 2 | u . . . |").Skip(3));
        Assert.Equal(["u . . .", "u . . .", "u . . ."], Strums(verse + "section W like V\nstrum throughout | u . . . |").Skip(3));
    }

    [Fact]
    public void EachStrokeLastsToTheNextAlsoAcrossTheBarLine()
    {
        var strums = Read("section A\nchords | Am | C |\nstrum throughout | d . u . |").Bars.SelectMany(b => b.Strums);
        Assert.All(strums, s => Assert.Equal(Beats.Whole(2), s.Length));
    }

    /// <summary>The frets are those of x02210 and x32010: the bass on the A string, open in Am and at the third fret in C.</summary>
    [Fact]
    public void APickingPatternFollowsTheChords()
    {
        var song = Read("pattern Roll\n  B3 | . . . * |\n  G3 | . . * . |\n  D3 | . * . . |\n  bass | * . . . |\nsection A\nchords | Am | C |\npick Roll");
        Assert.Equal(["A2 0", "D3 2", "G3 2", "B3 1"], Picked(song, 0));
        Assert.Equal(["A2 3", "D3 2", "G3 0", "B3 1"], Picked(song, 1));
    }

    /// <summary>xx0232 has its lowest sounding string at D3; a note there ends when the string is picked again.</summary>
    [Fact]
    public void TheBassMovesToTheStringThatTheShapeHasLowest()
    {
        var song = Read("section A\nchords | Am . D . |\npick throughout\n  D3 | . * . * |\n  bass | * . * . |");
        Assert.Equal(["A2 0", "D3 2", "D3 0", "D3 0"], Picked(song, 0));
        Assert.Equal([4.0, 1.0, 1.0, 1.0], song.Bars.First().Picked.Select(p => p.Length.Value));
    }

    [Fact]
    public void ALiteralBlockIsRepeatedStringByString() =>
        Assert.Equal(["E4 0", "B3 1"], Picked(Read("section A\nchords | Am | Am | Am |\npick throughout\n  E4 | 0 . |\n  B3 | . 1 |"), 2));

    [Fact]
    public void StandingsOfALineHoldForAllItsBarsAndMayBeKeptToOne()
    {
        var song = Read("section A\nchords | Am | C | Am |\nstrum throughout | d . . u? |  ~heard 60%  ~bar 2 decided");
        Assert.Equal([Standing.Heard(0.6), Standing.Heard(null), Standing.Decided, Standing.Heard(null), Standing.Heard(0.6), Standing.Heard(null)],
            song.Bars.SelectMany(b => b.Strums).Select(s => s.Standing));
    }

    [Fact]
    public void AnEditOfStandingChangesTheLineThatPlaysThePattern()
    {
        const string text = Facts + "pattern Roll\n  G3 | * |\n  bass | * |\nsection A\nchords | Am |\npick Roll ; as taught\n";
        Assert.Equal(text.Replace("pick Roll", "pick Roll  ~heard 50%"), SongText.Parse(text, "t")
            .WithPartStanding(0, SongPart.Pick, Standing.Heard(0.5)).Text);
    }

    [Theory]
    [InlineData("strum | d du .u du | . | . | . |", DiagnosticCode.PatternStops, Severity.Warning)]
    [InlineData("strum | d du .u du | | | |", DiagnosticCode.PatternStops, Severity.Warning)]
    [InlineData("pick\nE4 | 0 1 | . | . | . |\nB3 | . . | . | . | . |", DiagnosticCode.PatternStops, Severity.Warning)]
    [InlineData("strum | d du .u du |", DiagnosticCode.BarCount, Severity.Error)]
    [InlineData("strum Rolling", DiagnosticCode.UnknownPattern, Severity.Error)]
    [InlineData("pick Down", DiagnosticCode.UnknownPattern, Severity.Error)]
    [InlineData("strum Down from x", DiagnosticCode.BadFrom, Severity.Error)]
    [InlineData("strum Down\nstrum Down", DiagnosticCode.BarTwice, Severity.Error)]
    [InlineData("strum Down from 9", DiagnosticCode.ChangeOutside, Severity.Warning)]
    [InlineData("meter 6/8 from 3\nstrum Down", DiagnosticCode.PatternMeter, Severity.Error)]
    [InlineData("meter 5/4 from 3\nstrum Down", DiagnosticCode.PatternMeter, Severity.Error)]
    [InlineData("pick\nE4 | * | . | . | . |\nE2 | * | . | . | . |", DiagnosticCode.MutedString, Severity.Warning)]
    [InlineData("pick from 4\nE4 | * |", DiagnosticCode.NoShape, Severity.Error)]
    [InlineData("pick throughout\nbass | 3 |", DiagnosticCode.BadPickedNote, Severity.Error)]
    [InlineData("pattern from | d |", DiagnosticCode.BadPattern, Severity.Error)]
    [InlineData("pattern X in 5/5 | d |", DiagnosticCode.BadPattern, Severity.Error)]
    [InlineData("pattern Down | u |", DiagnosticCode.GivenTwice, Severity.Error)]
    [InlineData("pattern Nothing", DiagnosticCode.NoBars, Severity.Error)]
    public void WhatIsWrongIsSaidLoudly(string line, DiagnosticCode code, Severity severity)
    {
        var diagnostics = SongText.Parse($"{Facts}pattern Down | d . . . |\nsection A\nchords | Am | C | D | G |\n{line}\n", "t").Diagnostics;
        Assert.Contains(diagnostics, d => d.Code == code && d.Severity == severity);
    }

    [Theory]
    [InlineData("strum | d du .u du | . . . . | _ | . |")]
    [InlineData("strum | . | d . . . | d . . . | _ |")]
    [InlineData("strum throughout | d . . . |\nstrum from 3 | . . . . |")]
    public void WhatIsMeantIsNotWarnedOf(string line) =>
        Assert.DoesNotContain(SongText.Parse($"{Facts}section A\nchords | Am | C | D | C |\n{line}\n", "t").Diagnostics,
            d => d.Code == DiagnosticCode.PatternStops);

    [Fact]
    public void TheWriterWritesARepeatedStrumOnceAndTheBarsThatDiffer()
    {
        var song = Read("section A\nchords | Am | C | Am | C | Am | C | D | D |\nstrum | d . du . | d . du . | d . du . | x . . . | d . du . | d . du . | d . "
            + "du . | d . . . |");
        var lines = SongText.Write(song).Split('\n').Where(l => l.StartsWith("strum"))
            .Select(l => string.Join(' ', l.Split(' ', StringSplitOptions.RemoveEmptyEntries)));
        Assert.Equal(["strum throughout | d . du . |", "strum from 4 | x . . . |", "strum from 8 | d . . . |"], lines);
    }

    /// <summary>Whatever is repeated, and whichever bars differ: the written file says the same song, and no bar in it looks like a pattern that
    /// stops.</summary>
    [Fact]
    public void AnySongOfPatternsReadsBackEqual() =>
        Gen.Select(SongGen.Songs, Gen.Int[0, int.MaxValue]).Sample((song, seed) =>
        {
            var random = new Random(seed);
            var patterned = song with { Sections = [.. song.Sections.Select(s => s with { Bars = Repeated(s.Bars, random) })] };
            var text = SongText.Write(patterned);
            var read = SongText.Parse(text, "song.hark");
            Assert.True(patterned == read.Song, string.Join('\n', read.Diagnostics) + "\n" + text);
            Assert.DoesNotContain(read.Diagnostics, d => d.Code == DiagnosticCode.PatternStops);
        }, iter: 300);

    /// <summary>The first bar's strokes and notes in nearly every bar of its meter.</summary>
    private static ImmutableArray<Bar> Repeated(ImmutableArray<Bar> bars, Random random) =>
        [.. bars.Select(b => b.Meter != bars[0].Meter || random.Next(6) == 0 ? b with { Strums = [], Picked = [] }
            : b with { Strums = Within(bars[0].Strums, b), Picked = Within(bars[0].Picked, b) })];

    private static ImmutableArray<Claim<T>> Within<T>(ImmutableArray<Claim<T>> claims, Bar bar) =>
        [.. claims.Select((c, i) => c with { Length = i + 1 < claims.Length && claims[i + 1].Start < c.Start + c.Length ? claims[i + 1].Start - c.Start
            : c.Start + c.Length > bar.Meter.BarLength ? bar.Meter.BarLength - c.Start : c.Length })];

    private static Song Read(string text)
    {
        var document = SongText.Parse(Facts + text, "t.hark");
        return document.Song ?? throw new InvalidOperationException(string.Join('\n', document.Diagnostics));
    }

    /// <summary>Each bar's strokes, a cell a beat.</summary>
    private static IEnumerable<string> Strums(string text) => Read(text).Bars.Select(b => string.Join(' ',
        Enumerable.Range(0, b.Meter.BeatsPerBar)
            .Select(beat => b.Strums.FirstOrDefault(s => s.Start == Beats.Whole(beat))?.Value switch { null => ".", Stroke.Down => "d",
            Stroke.Up => "u", _ => "x" })));

    private static IEnumerable<string> Picked(Song song, int bar) =>
        song.Bars.ElementAt(bar).Picked.Select(p => $"{song.Tuning.Value.Strings[p.Value.StringIndex]} {p.Value.Fret}");
}
