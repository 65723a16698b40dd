using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

/// <summary>Shapes held against their names whenever a song file is read, with or without a recording.</summary>
public class ShapeCheckTests
{
    private const string Head = "title Lantern Hill\ntuning E2 A2 D3 G3 B3 E4\n";

    // A teacher's first mistake: x02210 is an A minor chord to the hand, and B minor sounds at capo 2. x32010 is C to the hand, so D sounds.
    [Fact]
    public void NamesOfTheHandAreToldOnceWithBothWaysOut() => Assert.Equal(
        ["t.hark:5:7: warning: Am as x02210 with capo 2 sounds Bm: Am is the hand's name, and 1 more shape is named so. Write what sounds, Bm, or add the line "
            + "names hand if all names of the file, its key too, are the hand's."],
        Warnings("capo 2\nkey A minor\nshape Am x02210\nshape G 320003"));

    [Fact]
    public void AShapeOfAnotherChordIsToldApart() => Assert.Equal(
        [
            "t.hark:5:7: warning: Am as x02210 with capo 2 sounds Bm: Am is the hand's name. Write what sounds, Bm, or add the line names hand if all names of "
                + "the file, its key too, are the hand's.",
            "t.hark:6:7: warning: G as x32010 with capo 2 sounds D: F# and A are no notes of G.",
        ],
        Warnings("capo 2\nkey A minor\nshape Am x02210\nshape G x32010"));

    [Fact]
    public void WhereOtherShapesAreNamedByWhatSoundsOnlyThatIsOffered() => Assert.Equal(
        ["t.hark:6:7: warning: G as 320003 with capo 2 sounds A: G is the hand's name. Write what sounds, A."],
        Warnings("capo 2\nkey B minor\nshape Bm x02210\nshape G 320003"));

    [Fact]
    public void NamesThatSoundInAFileOfTheHandsAreTold() => Assert.Equal(
        ["t.hark:6:7: warning: Bm as x02210 is the hand's Am: Bm is what sounds with capo 2, and the file says that its names are the hand's. Write Am, or "
            + "names sound."],
        Warnings("capo 2\nnames hand\nkey A minor\nshape Bm x02210"));

    [Fact]
    public void AStringWithoutAFingerMayBeCrossedAsInTheFrets()
    {
        var document = SongText.Parse(Head + "shape C x3213x fingers x3214x\nsection A\nchords | C |\n", "t.hark");
        Assert.DoesNotContain(document.Diagnostics, d => d.Severity == Severity.Error);
        Assert.Equal([0, 3, 2, 1, 4, 0], document.Song!.Shapes[0].Shape.Fingers);
    }

    [Fact]
    public void FingersThatCanNotBeReadAreOneMistakeAndTheShapeIsThere() => Assert.Equal(
        [DiagnosticCode.BadFingers],
        SongText.Parse(Head + "shape C@low x32010 fingers 03201y\nsection A\nchords | C@low |\npick\n  A2 | * . |\n", "t.hark").Diagnostics
            .Where(d => d.Severity == Severity.Error).Select(d => d.Code));

    [Fact]
    public void WithoutACapoAWrongShapeIsTold() => Assert.Equal(["t.hark:3:7: warning: D as x32010 sounds C: C, E and G are no notes of D."],
        Warnings("shape D x32010"));

    // Standard tuning with a capo at 2 on A, D and G only: open, E B E A B E sound.
    [Theory]
    [InlineData("capo 2\nnames hand\nshape Am x02210\nshape G/B@low x20003")]
    [InlineData("capo 2\nshape Bm x02210\nshape A 320003")]
    [InlineData("capo 2\nnames sound\nshape Bm x02210\nshape N.C. xxxxxx")]
    [InlineData("capo 2 on A2 D3 G3\nshape Esus4 000000")]
    public void RightNamesAreQuiet(string text) => Assert.Empty(Warnings(text));

    private static IEnumerable<string> Warnings(string text) =>
        SongText.Parse(Head + text + "\n", "t.hark").Diagnostics.Where(d => d.Severity != Severity.Hint).Select(d => d.ToString());
}
