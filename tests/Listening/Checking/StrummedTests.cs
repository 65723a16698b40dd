using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>
/// What is said of strokes, of the shapes that they fall on and of the strings. G as 320003 in standard tuning sounds MIDI 43 47 50 55 59 67, by the
/// fretboard. Bar 1 starts at 1 s, a beat is half a second; a stroke takes 20 ms over six strings.
/// </summary>
public class StrummedTests
{
    private static readonly int[] G = [43, 47, 50, 55, 59, 67];

    private static List<Finding> Check(string shape, string strums, ClaimKind kind, params (int Midi, double Onset)[] heard) =>
        [.. new Checker(PluckedEvidence.Of(heard)).Check(SongText.Parse(Text(shape, strums), "t.hark").Song!).Findings.Where(f => f.Kind == kind)];

    private static string Text(string shape, string strums) =>
        $"title T\ntempo 120\nkey G major\nshape G {shape}\nsection A\nanchors 1 = 0:01\nchords | G | G |\nstrum | {strums} | {strums} |\n";

    private static (int, double)[] Stroke(int[] pitches, double at, bool up = false) =>
        [.. pitches.Select((m, i) => (m, at + 0.004 * (up ? pitches.Length - 1 - i : i)))];

    private static (int, double)[] Down(int[] pitches, params double[] times) => [.. times.SelectMany(t => Stroke(pitches, t))];

    [Fact]
    public void AShapeThatSoundsIsRight() => Assert.True(Assert.Single(Check("320003", "d . d .", ClaimKind.Shape, Down(G, 1, 2, 3, 4))).LogOdds > 0);

    /// <summary>The second string from below is written a fret, or two, from where it sounds.</summary>
    [Theory]
    [InlineData("310003", "Bb2")]
    [InlineData("330003", "C3")]
    [InlineData("300003", "A2")]
    public void AFretOffIsFoundAndTheRightOneOffered(string written, string pitch)
    {
        var shape = Assert.Single(Check(written, "d . d .", ClaimKind.Shape, Down(G, 1, 2, 3, 4)));
        Assert.True(shape.LogOdds < 0);
        Assert.Equal(($"string 5 (A2) sounds B2, not {pitch}", "320003"), (shape.Heard, shape.Suggestion));
    }

    /// <summary>The hand's other strings are picked as the shape holds them; the fifth, written at fret 2 in the bar, isn't.</summary>
    [Fact]
    public void AFretOffIsFoundWhereTheShapeIsPicked()
    {
        const string Picked = "title T\ntempo 120\nkey G major\nshape G 310003\nsection A\nanchors 1 = 0:01\n"
            + "chords | G |\npick\nD3 | . . 0 . |\nA2 | . 2 . . |\nE2 | 3 . . . |\n";
        var result = new Checker(PluckedEvidence.Of((43, 1), (47, 1.5), (50, 2))).Check(SongText.Parse(Picked, "t.hark").Song!);
        var shape = Assert.Single(result.Findings, f => f.Kind == ClaimKind.Shape);
        Assert.Equal((true, "string 5 (A2) sounds B2, not Bb2"), (shape.LogOdds < 0, shape.Heard));
    }

    /// <summary>Were the fifth string tuned to A, its second fret would sound B2 (47); it sounds A2 (45), as from G2.</summary>
    [Fact]
    public void AStringAToneOffIsFound()
    {
        var strings = Check("320003", "d . d .", ClaimKind.TuningString, Down([43, 45, 50, 55, 59, 67], 1, 2, 3, 4))
            .Where(f => f.Claim.StartsWith("string", StringComparison.Ordinal)).ToList();
        Assert.Equal(6, strings.Count);
        var wrong = strings.MinBy(f => f.LogOdds)!;
        Assert.Equal((true, "string 5 is tuned to A2", "E2 G2 D3 G3 B3 E4"), (wrong.LogOdds < 0, wrong.Claim, wrong.Rival!.Reading));
    }

    [Fact]
    public void AStrokeWhereNothingIsStruckIsFound()
    {
        var strokes = Check("320003", "d d d .", ClaimKind.Stroke, Down(G, 1, 2, 3, 4));
        Assert.Equal([true, false, true, true, false, true], strokes.Select(s => s.LogOdds > 0));
        Assert.Equal((".", "nothing is struck here"), (strokes[1].Rival!.Reading, strokes[1].Heard));
    }

    [Fact]
    public void AStrokeThatIsNotWrittenIsFound()
    {
        Assert.Empty(Check("320003", "d . d .", ClaimKind.StillHand, Down(G, 1, 2, 3, 4)));
        var missing = Assert.Single(Check("320003", "d . d .", ClaimKind.StillHand, Down(G, 1, 1.5, 2, 3, 4)));
        Assert.InRange(missing.Where!.Beat!.Value, 1.9, 2.1);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void TheOrderOfTheStringsTellsWhichWayAStrokeWentThatIsNotWritten(bool up)
    {
        var missing = Assert.Single(Check("320003", "d . d .", ClaimKind.StillHand, [.. Down(G, 1, 2, 3, 4), .. Stroke(G, 1.5, up)]));
        Assert.Equal(up ? "u" : "d", missing.Rival!.Reading);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void TheOrderOfTheStringsTellsDownFromUp(bool up)
    {
        (int, double)[] heard = [.. new[] { 1.0, 2, 3, 4 }.SelectMany(t => Stroke(G, t, up))];
        Assert.All(Check("320003", up ? "u . u ." : "d . d .", ClaimKind.Stroke, heard), s => Assert.True(s.LogOdds > 0));
        Assert.All(Check("320003", up ? "d . d ." : "u . u .", ClaimKind.Stroke, heard),
            s => Assert.Equal((true, up ? "u" : "d"), (s.LogOdds < 0, s.Rival!.Reading)));
    }
}
