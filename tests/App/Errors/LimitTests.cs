namespace Harkbook.App.Tests.Errors;

/// <summary>A disk without room, by what an ordinary user can have of it: a device that is always full, and a limit on a file's size.</summary>
public class LimitTests
{
    internal const string FullOutput = "the disk is full";
    internal const string FullFile = "the disk is full while a file is written";
    internal const string FullFfmpeg = "the disk is full while ffmpeg writes";
    internal const string NoRoom = "there is no room to listen or to sound in";
    internal const string Outgrown = "the file outgrows the disk or a quota";
    internal const string OutgrownFfmpeg = "… while ffmpeg writes";

    private static readonly string[] IntoAFullDevice = ["/bin/sh", "-c", "exec \"$@\" > /dev/full", "sh"];

    /// <summary>Files of at most one block (512 or 1024 bytes), with the signal for larger ones off, so that writing fails as on a full disk.</summary>
    private static readonly string[] WithSmallFiles = ["/bin/sh", "-c", "trap '' XFSZ; ulimit -f 1; exec \"$@\"", "sh"];

    [Theory]
    [InlineData("listen", "take.wav")]
    [InlineData("listen", "take.wav", "--json")]
    [InlineData("check", "song", "--all")]
    public async Task FullDiskBehindTheOutput(params string[] arguments)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Only Linux has /dev/full.");
        await MeetAsync(FullOutput, IntoAFullDevice, arguments);
    }

    [Theory]
    [InlineData(NoRoom, "listen", "take.wav", "--jams", "new/a.jams")]
    [InlineData(NoRoom, "audition", "song", "--to", "new/a.wav")]
    [InlineData(NoRoom, "audition", "song", "--to", "new/a.flac")]
    [InlineData(Outgrown, "publish", "song", "--only", "sheet")]
    [InlineData(Outgrown, "publish", "song", "--only", "diagrams", "--into", "new/lesson")]
    [InlineData(OutgrownFfmpeg, "audition", "song", "--against", "--speed", "0.5")]
    [InlineData(OutgrownFfmpeg, "publish", "song", "--only", "page")]
    [InlineData(OutgrownFfmpeg, "publish", "song", "--only", "video")]
    public async Task FileThatMayNotGrow(string when, params string[] arguments)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no limit on a program's files.");
        Assert.SkipWhen(when == OutgrownFfmpeg && !Ffmpeg.IsHere, "ffmpeg isn't installed here.");
        await MeetAsync(when, WithSmallFiles, arguments);
    }

    // What the guide says of a disk that is full is what the writers say (src/Audio's tests make them say it on /dev/full).
    [Theory]
    [InlineData(FullFile, "a.wav: the disk is full. Free some space and try again; nothing half-written was left.")]
    [InlineData(FullFfmpeg, "Writing a.flac failed: the disk is full. Free some space and try again; nothing half-written was left.")]
    public void GuideKnowsAFullDisk(string when, string said) => Assert.True(ErrorGuide.Line(when).Tells(said));

    private static async Task MeetAsync(string when, string[] shell, string[] arguments)
    {
        using var scene = new Scene();
        scene.Take(1.5).Song().File("song/song.hark", File.ReadAllText(scene.PathOf("song/song.hark"))
            .Replace("section A", "shape A x02220\nsection A", StringComparison.Ordinal));
        var before = scene.Contents;
        var ran = await Launch.RunAsync(scene, shell, arguments);
        var line = ErrorGuide.Line(when);
        Assert.True(ran.ExitCode == line.ExitCode, $"The guide says {line.ExitCode}, the program {ran.ExitCode}: {ran.Error}");
        Assert.True(line.Tells(Assert.Single(ran.Complaints)), $"The guide says: {line.Message}\nThe program: {ran.Complaints[0]}");
        Assert.Equal(before, scene.Contents);
    }
}
