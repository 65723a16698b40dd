using Harkbook.Listening.Estimators.Form;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Form;

/// <summary>An intro is what is played before the singing, as the word says (data/section-words.tsv); its last bar may hold a pick-up. Bars of 2 s.</summary>
public class SungEntryTests
{
    [Theory]
    [InlineData("....vvvvvv", 4)]
    [InlineData("..vv.vv.", 2)]
    [InlineData("....pvvvv", 5)]
    [InlineData("....evvvv", 4)]
    public void ASectionStartsWhereSomebodyComesInToSing(string bars, int entry) => Assert.Equal(entry, Entry(bars, 0.9)?.Bar);

    [Theory]
    [InlineData("vvvvvv", 0.9)]
    [InlineData(".vvvvv", 0.9)]
    [InlineData("vv..vvvv", 0.9)]
    [InlineData("......", 0.9)]
    [InlineData("....vvvv", 0.6)]
    public void NoneIsSaidWhereSingingIsThereFromTheStartOrNowhereOrNotSure(string bars, double sure) => Assert.Null(Entry(bars, sure));

    [Fact]
    public void ACallInTheIntroIsNoEntry() => Assert.Equal(8, Entry("...s....vvvv", 0.9)?.Bar);

    /// <summary>v: most of the bar is sung; p: a pick-up of its last fifth; e: it is sung from its first fifth on for as long; s: half of it.</summary>
    private static SungEntry? Entry(string bars, double sure)
    {
        (double From, double To) Part(char sign) => sign switch { 'v' => (0, 1.4), 'p' => (1.6, 2), 'e' => (0.4, 0.8), _ => (0.5, 1.2) };
        return SungEntry.Of([.. Enumerable.Range(0, bars.Length + 1).Select(b => 2.0 * b)], new()
        {
            Kind = new(new Candidate<LineKind>(LineKind.Voice, sure)),
            Contour = PitchContour.Silent,
            Notes = [.. Enumerable.Range(0, bars.Length).Where(b => bars[b] != '.').Select(b => new HeardLineNote(60, default,
                Seconds.FromSeconds(2 * b + Part(bars[b]).From), Seconds.FromSeconds(2 * b + Part(bars[b]).To), 0.9))],
        });
    }
}
