using Harkbook.App.Tests.Errors;
using Harkbook.Audio.Tests.Recordings;
using Harkbook.Music.Songs;

namespace Harkbook.App.Tests;

/// <summary>Barring a song anew on disk: there, back again, and not over what was edited since.</summary>
public class RebarCommandTests
{
    private const string Song = "\uFEFFtitle Far   ; mine\r\ntempo 177\r\nsection A\r\n  chords | A . . . |   D . . .|\r\n";

    [Theory]
    [InlineData("--undo")]
    [InlineData("--tempo", "double")]
    public async Task BackAgainIsTheFileByteForByte(params string[] back)
    {
        using var scene = new Scene();
        scene.File("song/song.hark", Song);
        var before = scene.Contents;
        Assert.Equal(0, (await Launch.RunAsync(scene, "rebar", "song", "--tempo", "half")).ExitCode);
        Assert.Contains("tempo 88.5\r\nsection A\r\n  chords     | A . D . |\r\n", File.ReadAllText(scene.PathOf("song/song.hark")), StringComparison.Ordinal);
        Assert.NotEqual(before, scene.Contents);
        Assert.Contains("byte for byte", (await Launch.RunAsync(scene, ["rebar", "song", .. back])).Output);
        Assert.Equal(before, scene.Contents);
    }

    [Fact]
    public async Task BarsThatAreDrawnSoAlreadyAreLeftAndNothingIsKeptBeside()
    {
        using var scene = new Scene();
        scene.File("song/song.hark", "title Far\nmeter 4/4\ntempo 60\n\nsection    A\nanchors    1 = 0:01\nchords     | A . . . | D . . . |\n");
        var before = scene.Contents;
        var ran = await Launch.RunAsync(scene, "rebar", "song", "--bar-one", "0:05.2");
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("nothing was changed", ran.Output, StringComparison.Ordinal);
        Assert.Equal(before, scene.Contents);
    }

    [Fact]
    public async Task TwoChangesAreUndoneOneAfterTheOther()
    {
        using var scene = new Scene();
        scene.File("song/song.hark", Song);
        var before = scene.Contents;
        foreach (var change in new[] { "--later", "--earlier" })
            await Launch.RunAsync(scene, "rebar", "song", change, "2", "--tempo", "half");
        foreach (var _ in Enumerable.Range(0, 2))
            Assert.Equal(0, (await Launch.RunAsync(scene, "rebar", "song", "--undo")).ExitCode);
        Assert.Equal(before, scene.Contents);
    }

    [Fact]
    public async Task ADraftBeginsAtTheFeltLevel()
    {
        using var scene = new Scene();
        scene.File("take.wav", Bytes.Wave(8000, 1, 16, 1, Strokes()));
        var tempi = new List<double>();
        foreach (var (folder, options) in new[] { ("as-heard", Array.Empty<string>()), ("half", ["--tempo", "half"]) })
        {
            Assert.Equal(0, (await Launch.RunAsync(scene, ["start", "take.wav", "--into", folder, .. options])).ExitCode);
            tempi.Add(SongText.Parse(File.ReadAllText(scene.PathOf($"{folder}/take.hark")), "t").Song!.Tempo.Value);
        }
        // Read from the sound at that level, so not the half to the last digit.
        Assert.InRange(tempi[1] / tempi[0], 0.495, 0.505);
    }

    [Fact]
    public async Task StartingAgainKeepsWhatWasDecidedAndIsUndone()
    {
        using var scene = new Scene();
        scene.Take(seconds: 4);
        await Launch.RunAsync(scene, "start", "take.wav", "--into", "song", "--meter", "3/4");
        var path = scene.PathOf("song/take.hark");
        var decided = File.ReadAllText(path).Replace("\nkey ", "\nkey        F# dorian ; sure\n; key ", StringComparison.Ordinal);
        File.WriteAllText(path, decided);
        Assert.Equal(0, (await Launch.RunAsync(scene, "start", "take.wav", "--into", "song", "--again", "--tuning", "DADGAD")).ExitCode);
        var now = File.ReadAllText(path);
        Assert.Contains("\nkey        F# dorian ; sure\n; key ", now, StringComparison.Ordinal);
        Assert.Contains("tuning     D2 A2 D3 G3 A3 D4", now, StringComparison.Ordinal);
        Assert.Equal(0, (await Launch.RunAsync(scene, "rebar", "song", "--undo")).ExitCode);
        Assert.Equal(decided, File.ReadAllText(path));
    }

    /// <summary>Twelve seconds of a chord struck twice a second.</summary>
    private static byte[] Strokes() =>
        [.. Enumerable.Range(0, 12 * 8000)
            .SelectMany(i => BitConverter.GetBytes(
            (short)(8000 * Math.Exp(-(i % 4000) / 800.0) * (Math.Sin(i * 0.1727) + Math.Sin(i * 0.2176) + Math.Sin(i * 0.2588)))))];
}
