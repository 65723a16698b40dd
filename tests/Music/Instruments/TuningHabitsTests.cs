using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Tests.Instruments;

// The shares are our own estimates (data/tuning-habits.tsv says so); what is checked is that they are shares and that every tuning has one.
public class TuningHabitsTests
{
    private static IEnumerable<NamedTuning> Guitars => TuningCatalogue.All.Where(t => t.Instrument == TuningCatalogue.Guitar);

    [Fact]
    public void TuningsShareOutAllSongs() => Assert.Equal(1, Guitars.Sum(TuningHabits.ShareOf), 6);

    [Fact]
    public void CapoFretsShareOutAllSongs() => Assert.Equal(1, Enumerable.Range(0, 13).Sum(TuningHabits.ShareOfCapo), 6);

    [Fact]
    public void StandardWithoutCapoIsTheUsual()
    {
        Assert.Equal("standard", Guitars.MaxBy(TuningHabits.ShareOf)!.Name);
        Assert.Equal(0, Enumerable.Range(0, 13).MaxBy(TuningHabits.ShareOfCapo));
        Assert.Equal(0, TuningHabits.ShareOfCapo(12));
    }

    [Fact]
    public void ATuningThatNobodyListedIsRareButPossible()
    {
        var own = new NamedTuning(TuningCatalogue.Guitar, "low tide", [], Tuning.Parse("C2 G2 C3 F3 A3 E4"), "ours");

        Assert.InRange(TuningHabits.ShareOf(own), 0.0001, 0.01);
    }
}
