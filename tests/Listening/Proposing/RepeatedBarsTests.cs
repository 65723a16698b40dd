using System.Collections.Immutable;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Xunit;

namespace Harkbook.Listening.Tests.Proposing;

/// <summary>Expected by arithmetic, and by what "the same again" means: three verses of one bar each.</summary>
public sealed class RepeatedBarsTests
{
    [Theory]
    [InlineData("G 80, G 60, G 70", "G 70, G 70, G 70")] // the same: as sure as their mean
    [InlineData("G 80, Em 55, G 70", "G 75, G 75, G 75")] // heard less surely than the others' way
    [InlineData("G 80, Em 75, G 70", "G 75, Em 75, G 75")] // surely another chord
    [InlineData("G 55, Em 50, D 52", "G 55, Em 50, D 52")] // nothing is surer by enough
    public void BarsOfSectionsThatAreAlikeAreReadTogether(string heard, string read)
    {
        ImmutableArray<Bar> bars = [.. heard.Split(", ").Select((b, i) => Of(b, i + 1))];
        var plan = bars.Select((_, i) => new PlannedSection($"A {i + 1}", "A", i, i + 1, Standing.Heard(0.9))).ToImmutableArray();
        Assert.Equal(read, string.Join(", ", RepeatedBars.Of(bars, plan).Select(Text)));
    }

    [Fact]
    public void OtherSectionsSayNothing()
    {
        ImmutableArray<Bar> bars = [Of("G 80", 1), Of("Em 55", 2)];
        Assert.Equal(bars, RepeatedBars.Of(bars, [new("A 1", "A", 0, 1, Standing.Heard(0.9)), new("B 1", "B", 1, 2, Standing.Heard(0.9))]));
    }

    private static Bar Of(string text, int number)
    {
        var (name, sure) = (text.Split(' ')[0], int.Parse(text.Split(' ')[1]));
        return new() { Number = number, Meter = Meter.CommonTime,
            Chords = [new(default, Meter.CommonTime.BarLength, new(ChordSymbol.Read(name), name, null), Standing.HeardToThePercent(sure / 100.0))] };
    }

    private static string Text(Bar bar) => $"{bar.Chords[0].Value.Name} {Math.Round(100 * bar.Chords[0].Standing.Confidence!.Value)}";
}
