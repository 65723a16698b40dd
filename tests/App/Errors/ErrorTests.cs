namespace Harkbook.App.Tests.Errors;

/// <summary>
/// Every line of docs/errors.md, met by running the program: the message and the exit code are those of the guide, there is one of
/// them, and nothing in the folder has changed.
/// </summary>
public class ErrorTests
{
    private static readonly ErrorCase[] Cases = [.. RecordingCases.All, .. SongCases.All, .. PlaceCases.All, .. UsageCases.All];

    /// <summary>Lines that other tests meet, or, for rights, that a test as root can't: root may read everything (tests of src/Audio cover the
    /// words).</summary>
    private static readonly string[] Elsewhere =
    [
        LimitTests.FullOutput, LimitTests.FullFile, LimitTests.FullFfmpeg, LimitTests.NoRoom, LimitTests.Outgrown, LimitTests.OutgrownFfmpeg,
            StoppingTests.Stopped,
        "you may not read it", "you may not read the song",
        .. OperatingSystem.IsLinux() ? Array.Empty<string>() : ["nothing can be written there"],
    ];

    public static TheoryData<string> Names => [.. Cases.Select(c => c.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public async Task AnErrorIsSaidAsTheGuideSays(string name)
    {
        var met = Cases.Single(c => c.Name == name);
        Assert.SkipWhen(met.NeedsFfmpeg && !Ffmpeg.IsHere, "ffmpeg isn't installed here, and this file is made or read with it.");
        using var scene = new Scene();
        met.Arrange(scene);
        var before = scene.Contents;

        var ran = await Launch.RunAsync(scene, met.Arguments);

        var line = ErrorGuide.Line(met.When);
        Assert.True(ran.ExitCode == line.ExitCode, $"The guide says {line.ExitCode}, the program {ran.ExitCode}: {ran.Error}");
        var said = Assert.Single(ran.Complaints);
        Assert.True(line.Tells(said), $"The guide says: {line.Message}\nThe program: {said}");
        Assert.Equal("", ran.Output);
        Assert.Equal(before, scene.Contents);
    }

    [Fact]
    public void EveryLineOfTheGuideIsMet() =>
        Assert.Equal(ErrorGuide.Lines.Select(l => l.When).Order(), Cases.Select(c => c.When).Concat(Elsewhere).Distinct().Order());

    [Fact]
    public void EveryExitCodeIsInTheGuidesTable() => Assert.Empty(ErrorGuide.Lines.Select(l => l.ExitCode).Except(ErrorGuide.ExitCodes));

    [Fact]
    public async Task AContradictedClaimIsExitCodeOne()
    {
        using var scene = new Scene();
        scene.Take(10).File("a.lab", "0 10 Eb:min\n");
        var ran = await Launch.RunAsync(scene, "check", "take.wav", "a.lab");
        Assert.Contains("contradicted", ran.Output);
        Assert.Equal(1, ran.ExitCode);
        Assert.Contains(1, ErrorGuide.ExitCodes);
        Assert.Empty(ran.Complaints);
    }

    [Theory]
    [InlineData("check", "song")]
    [InlineData("publish", "song", "--only", "chapters")]
    [InlineData("audition", "song", "--against")]
    public async Task AnotherRecordingThanTheSongsIsSaid(params string[] arguments)
    {
        using var scene = new Scene();
        scene.Take().File("song/song.hark", $"title Far\nrecording ../take.wav  sha256 {new string('0', 64)}\nsection A\nanchors 1 = 0:00\nchords | A |\n");
        var ran = await Launch.RunAsync(scene, arguments);
        Assert.InRange(ran.ExitCode, 0, 1);
        Assert.Contains("this isn't the file that the song was made from", Assert.Single(ran.Complaints));
    }

    [Fact]
    public async Task LessonWithoutFfmpegSaysWhatIsLeftOut()
    {
        using var scene = new Scene { WithoutFfmpeg = true };
        scene.Take().Song();
        var ran = await Launch.RunAsync(scene, "publish", "song", "--only", "tab,chapters,page,video");
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("ffmpeg is not installed, so no video is made", Assert.Single(ran.Complaints));
        Assert.Contains("play-along.html", ran.Output);
    }
}
