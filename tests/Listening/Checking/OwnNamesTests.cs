using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>A capo at fret 2 raises each of the hand's names by two semitones: Am sounds Bm, C sounds D.</summary>
public class OwnNamesTests
{
    private static readonly CheckResult Result = new(
    [
        new(ClaimKind.Chord, Verdict.Contradicted, 0, null, "Bm", "D heard", "D"),
        new(ClaimKind.Shape, Verdict.Doubtful, 0.4, null, "Bm@low as x02210", "D4 not heard", "x02213"),
        new(ClaimKind.Key, Verdict.Doubtful, 0.4, null, "key B minor from bar 5", "D major heard", "D major"),
        new(ClaimKind.Meter, Verdict.Supported, 1, null, "meter 4/4"),
    ]);

    [Fact]
    public void FindingsHaveTheNamesOfTheSongsFile() =>
        Assert.Equal(
            [("Am", "C heard", "C"), ("Am@low as x02210", "D4 not heard", "x02213"), ("key A minor from bar 5", "C major heard", "C major"),
                ("meter 4/4", null, null)],
            OwnNames.Of(Result, Song("names hand\nkey A minor\n")).Findings.Select(f => (f.Claim, f.Heard, f.Suggestion)));

    [Fact]
    public void WhereTheFileNamesWhatSoundsTheyStay() => Assert.Same(Result, OwnNames.Of(Result, Song("key B minor\n")));

    private static Song Song(string head) => SongText.Parse($"title T\ncapo 2\n{head}section A\nchords | |\n", "t.hark").Song!;
}
