using Harkbook.Listening.Checking;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>A shape is one for all its bars: what the check suggests for one must be right for the others. Four bars of 2 s each from 0 s on.</summary>
public class ShapeRemedyTests
{
    // MIDI numbers by the fretboard in standard tuning: G as 320003 and as xx5787, Bm as x24432, D as xx0232.
    private static readonly int[] LowG = [43, 47, 50, 55, 59, 67];
    private static readonly int[] HighG = [55, 62, 67, 71];
    private static readonly int[] Bm = [47, 54, 59, 62, 66];
    private static readonly int[] D = [50, 57, 62, 66];

    [Fact]
    public void UnderAnotherChordOnlyTheChordIsSuggested()
    {
        var (document, result) = Check("D xx0232 fingers 000132", "D Bm D D", D, Bm, D, D);
        var taken = RemedyChoice.Read("bar 2", result, out _)!;
        Assert.Equal([ClaimKind.Chord], taken.Taken.Select(f => f.Kind));
        Assert.Equal(document.Text.Replace("| D | D | D | D |", "| D | Bm | D | D |"), taken.Onto(document).Text);
    }

    [Fact]
    public void AShapeThatIsNowhereHeardIsChangedInAllBarsAndItsFingersCome()
    {
        var (document, result) = Check("G xx5787 ; from a book", "G G G G", LowG, LowG, LowG, LowG);
        var taken = RemedyChoice.Read("bar 1", result, out _)!;
        Assert.Equal(["this changes G in 4 bars"], taken.Reaches);
        var edited = taken.Onto(document);
        var shape = edited.Song!.Shapes.Single().Shape;
        Assert.Equal("320003", shape.ToString());
        Assert.Equal([true, true, false, false, false, true], shape.Fingers.Select(f => f > 0));
        Assert.Equal(document.Diagnostics, edited.Diagnostics);
    }

    [Fact]
    public void AShapeThatMostBarsSupportStays()
    {
        var shape = Assert.Single(Check("G xx5787", "G G G G", HighG, LowG, HighG, HighG).Result.Findings, f => f.Kind == ClaimKind.Shape);
        Assert.Equal((Verdict.Supported, 1, null), (shape.Verdict, shape.Where!.Bar, shape.Remedy));
    }

    private static (SongDocument Document, CheckResult Result) Check(string shape, string heard, params int[][] bars)
    {
        var name = shape.Split(' ')[0];
        var document = SongText.Parse(
            $"title T\ntempo 120\nkey D major\nshape {shape}\nsection A\nanchors 1 = 0:00\nchords | {name} | {name} | {name} | {name} |\n", "t.hark");
        var hearing = HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 16, from: 0), 1, 2, 3, 4),
            [.. heard.Split(' ').Select((c, i) => HandMade.Chord(c, 2 * i, 2 * i + 2))]) with
        {
            Evidence = new() { Notes = HandMade.Evidence(8, [.. bars.Select((pitches, i) => (2.0 * i, 2.0 * i + 2, pitches))]) },
        };
        return (document, new Checker(hearing).Check(document.Song!));
    }
}
