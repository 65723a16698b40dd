using Harkbook.Music.Songs;

namespace Harkbook.App.Tests.Errors;

/// <summary>A song file with any mistake: its place is said, the program ends with the guide's exit code, and the file stays as it was.</summary>
public class SongMistakeTests
{
    private static readonly string[] Commands = ["check", "audition", "publish"];

    public static TheoryData<DiagnosticCode> Codes => [.. SongMistakes.Files.Keys];

    [Theory]
    [MemberData(nameof(Codes))]
    public async Task AMistakeIsShownAtItsPlace(DiagnosticCode code)
    {
        using var scene = new Scene();
        scene.File("far.hark", SongMistakes.Files[code]);
        var before = scene.Contents;
        var line = ErrorGuide.Line("it has mistakes");

        var ran = await Launch.RunAsync(scene, Commands[(int)code % Commands.Length], "far.hark");

        Assert.Equal(line.ExitCode, ran.ExitCode);
        Assert.True(line.Tells(Assert.Single(ran.Complaints)), ran.Error);
        var mistake = SongText.Parse(SongMistakes.Files[code], "far.hark").Diagnostics.First(d => d.Code == code && d.Severity == Severity.Error);
        Assert.Contains($"far.hark:{mistake.Line}:{mistake.Column}: error: ", ran.Error);
        Assert.Contains(mistake.Message, ran.Error);
        Assert.DoesNotContain(": hint: ", ran.Error);
        Assert.Equal(before, scene.Contents);
    }

    [Fact]
    public void EveryMistakeIsTried()
    {
        var described = File.ReadLines(Path.Combine(ErrorGuide.Root(), "docs", "song-file.md"))
            .Where(l => l.Contains("` | error | ", StringComparison.Ordinal))
            .Select(l => Enum.Parse<DiagnosticCode>(l.Split('`')[1]));
        Assert.Equal(described.Order(), SongMistakes.Files.Keys.Order());
    }
}
