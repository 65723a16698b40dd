using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Tunings;

public class CutShortTests
{
    [Fact]
    public void ANoteThatEndsAsAnotherStartsIsCutShortByIt()
    {
        var found = Assert.Single(Cuts((40, 0, 2), (64, 0.5, 1), (67, 1, 2)));

        Assert.Equal((64, 67), (found.First, found.Second));
    }

    [Fact]
    public void ANoteThatRingsOnIsNot() => Assert.Empty(Cuts((40, 0, 2), (64, 0.5, 1.8), (67, 1, 2)));

    [Fact]
    public void TwoNotesThatEndAtOnceDontSayWhichWas() => Assert.Empty(Cuts((62, 0, 1), (64, 0.5, 1), (67, 1, 2)));

    private static IEnumerable<CutShort> Cuts(params (int Midi, double Onset, double End)[] notes)
    {
        HeardNote[] heard = [.. notes.Select(n => new HeardNote(n.Midi, Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.End), 0.9, 0.7))];
        return CutShort.Of([.. heard], StruckNotes.Of([.. heard]));
    }
}
