using Harkbook.App.Tests.Errors;

namespace Harkbook.App.Tests;

/// <summary>A lesson for a pupil's capo, through the command.</summary>
public sealed class PupilCapoTests : IDisposable
{
    private readonly Scene scene = new();

    // A's shape at capo 1 sounds B flat: G's shape does at capo 3; the same shape at capo 3 sounds C.
    [Theory]
    [InlineData("lesson-capo-3", "Bb.png", "--capo", "3")]
    [InlineData("lesson-no-capo", "Bb.png", "--capo", "none")]
    [InlineData("lesson-capo-3-same-shapes", "C.png", "--capo", "3", "--same-shapes")]
    [InlineData("lesson", "Bb.png")]
    public async Task ALessonForAnotherCapoStandsBesideTheFirst(string folder, string diagram, params string[] options)
    {
        scene.File("far.hark", "title Far\ncapo 1\nkey Bb major\nshape Bb x02220\nsection A\nchords | Bb |\n");
        var ran = await Launch.RunAsync(scene, ["publish", "far.hark", "--only", "diagrams", .. options]);
        Assert.True(ran.ExitCode == 0, ran.Error);
        Assert.True(File.Exists(Path.Combine(scene.PathOf(folder), "diagrams", diagram)), ran.Output);
        Assert.Single(Directory.GetDirectories(scene.Root));
    }

    [Theory]
    [InlineData("--capo", "1")]
    [InlineData("--capo", "1", "--same-shapes")]
    public async Task TheSongsOwnCapoChangesNothing(params string[] options)
    {
        scene.File("far.hark", "title Far\ncapo 1\nkey Bb major\nshape Bb x02220\nsection A\nchords | Bb |\n");
        var ran = await Launch.RunAsync(scene, ["publish", "far.hark", "--only", "diagrams", .. options]);
        Assert.Contains("the song has its capo on fret 1 itself, so there is nothing to change", ran.Error);
        Assert.Empty(Directory.GetDirectories(scene.Root));
    }

    [Fact]
    public async Task ShapesThatNobodyTriedAreSaidToBeSo()
    {
        scene.File("far.hark", "title Far\ncapo 1\nkey Bb major\nshape Bb x02220\nsection A\nchords | Bb |\n");
        var ran = await Launch.RunAsync(scene, ["publish", "far.hark", "--only", "diagrams", "--capo", "none"]);
        Assert.Contains("no person has tried them", ran.Output);
    }

    // A shape under the hand's name is warned of once, by a command that reads no recording.
    [Theory]
    [InlineData("check")]
    [InlineData("explain")]
    [InlineData("songbook")]
    [InlineData("setlist")]
    [InlineData("audition")]
    [InlineData("exercise", "--rounds", "1", "--speeds", "100")]
    [InlineData("rebar", "--later", "1")]
    [InlineData("publish", "--only", "sheet")]
    public async Task AContradictedShapeIsToldByEveryCommand(string command, params string[] options)
    {
        scene.File("far.hark", "title Far\ncapo 2\nkey A minor\nshape Am x02210\nsection A\nchords | Am |\n");
        var ran = await Launch.RunAsync(scene, [command, "far.hark", .. options]);
        Assert.True(ran.ExitCode == (command == "check" ? 1 : 0), ran.Error);
        Assert.Single(ran.Error.Split('\n'), l => l.Contains("far.hark:4:7: warning: Am as x02210 with capo 2 sounds Bm", StringComparison.Ordinal));
    }

    public void Dispose() => scene.Dispose();
}
