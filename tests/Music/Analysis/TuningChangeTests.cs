using System.Collections.Immutable;
using Harkbook.Music.Analysis.Retuning;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Analysis;

public class TuningChangeTests
{
    // Changes from standard as guitar handbooks list them (common practice; letters in the Encyclopedia of Music), low string first.
    [Theory]
    [InlineData("drop D", "-2 0 0 0 0 0")]
    [InlineData("D A D G A D", "-2 0 0 0 -2 -2")]
    [InlineData("open D", "-2 0 0 -1 -2 -2")]
    [InlineData("open G", "-2 -2 0 0 0 -2")]
    [InlineData("open E", "0 2 2 1 0 0")]
    [InlineData("open C", "-4 -2 -2 0 1 0")]
    public void StringsGoSoFar(string name, string semitones)
    {
        var change = Standard(name);
        Assert.Equal(semitones, string.Join(' ', change.Strings.Select(s => s.Semitones)));
        Assert.Equal([6, 5, 4, 3, 2, 1], change.Strings.Select(s => s.Number));
    }

    // Common practice: down before up.
    [Fact]
    public void StringsThatGoDownAreTurnedFirst() =>
        Assert.Equal([6, 5, 4, 2], Standard("open C").InOrder.Select(s => s.Number));

    // From drop D to open E no string goes down; from standard to drop D one string goes, down; standard to open C goes both ways.
    [Theory]
    [InlineData("drop D", "open E", false, true)]
    [InlineData("standard", "drop D", false, false)]
    [InlineData("standard", "open C", true, true)]
    public void WordsFitWhatTheStringsDo(string from, string to, bool downFirst, bool eyes)
    {
        var words = TuningChange.Between(TuningCatalogue.Find(from)!.Tuning, TuningCatalogue.Find(to)!.Tuning).HowToTurn;
        Assert.Equal((downFirst, eyes), (words.Contains("go down first"), words.Contains("Keep your eyes away")));
    }

    // Identities of the trade: open E is open D under a capo at 2, open A is open G so; open D itself needs no way round.
    [Theory]
    [InlineData("open E", "open D 2")]
    [InlineData("open A", "open G 2")]
    [InlineData("open D", "")]
    [InlineData("drop D", "")]
    public void ALooserTuningUnderACapoSoundsTheSame(string name, string same) =>
        Assert.Equal(same, string.Join(", ", Standard(name).Looser("guitar").Take(1).Select(s => $"{s.Tuning.Name} {s.Capo.Fret}")));

    // .016 plain steel at B3 on 25.5 inches pulls 104.20 N (see StringWeightTests); two semitones down leave 0.7937 of it (2 to the power of -2/6).
    [Fact]
    public void TensionIsToldWhereTheStringIsKnown()
    {
        var sixteen = StringWeight.PlainSteel(Length.FromInches(0.016));
        ImmutableArray<StringWeight?> weights = [null, null, null, null, sixteen, null];
        var change = TuningChange.Between(Tuning.Standard, Named("D A D G A D"), weights, Length.FromInches(25.5));
        Assert.Equal(104.20, change.Strings[4].Before!.Value.Value, 0.01);
        Assert.Equal(104.20 * 0.7937, change.Strings[4].After!.Value.Value, 0.02);
        Assert.Null(change.Strings[0].Before);
        Assert.Null(change.Pull);
    }

    [Fact]
    public void InstrumentsAreNotMixed() => Assert.Throws<ArgumentException>(() => TuningChange.Between(Tuning.Standard, Tuning.Parse("G4 C4 E4 A4")));

    private static TuningChange Standard(string to) => TuningChange.Between(Tuning.Standard, Named(to));

    private static Tuning Named(string name) => TuningCatalogue.Find(name)!.Tuning;
}
