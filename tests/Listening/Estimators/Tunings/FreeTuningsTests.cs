using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Listening.Tests.Estimators.Tunings;

public class FreeTuningsTests
{
    private static readonly Guitar Standard = new(TuningCatalogue.Find("standard")!, Capo.At(2));

    [Fact]
    public void OneStringMovesByFiveSemitonesAtMost() => Assert.All(Moved(), g =>
    {
        var changes = g.Named.Tuning.ChangeFrom(Tuning.Standard).Where(c => c != 0).ToArray();
        Assert.InRange(Math.Abs(Assert.Single(changes)), 1, 5);
        Assert.Equal(2, g.Capo.Fret);
    });

    [Fact]
    public void TheCataloguesOwnAreLeftOut() => Assert.DoesNotContain(Moved(), g => g.Named.Tuning == Tuning.Parse("D2 A2 D3 G3 B3 E4"));

    [Fact]
    public void StringsStayInOrder() => Assert.All(Moved(), g => Assert.False(g.Named.Tuning.IsReentrant));

    [Fact]
    public void ItSaysHowItDiffersInWords() =>
        Assert.Contains(Moved(), g => g.Named.Tuning == Tuning.Parse("E2 A2 D3 G3 C4 E4")
            && g.Moved!.ToString() == "not in the catalogue: standard with string 2 1 semitone up");

    private static List<Guitar> Moved() => [.. FreeTunings.Near(Standard, 0)];
}
