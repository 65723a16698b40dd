using Harkbook.App.Tests.Errors;

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
    public async Task ADraftBeginsAtTheFeltLevelAndStartsAgainUnderWhatWasDecided()
    {
        using var scene = new Scene();
        scene.Take(seconds: 4);
        Assert.Equal(0, (await Launch.RunAsync(scene, "start", "take.wav", "--into", "song", "--meter", "3/4")).ExitCode);
        var path = scene.PathOf("song/take.hark");
        var draft = File.ReadAllText(path);
        Assert.Contains("\nmeter      3/4\n", draft, StringComparison.Ordinal);
        File.WriteAllText(path, draft.Replace("\nkey ", "\nkey        F# dorian ; sure\n; key ", StringComparison.Ordinal));
        var again = await Launch.RunAsync(scene, "start", "take.wav", "--into", "song", "--again", "--tuning", "DADGAD");
        Assert.Equal(0, again.ExitCode);
        var now = File.ReadAllText(path);
        Assert.Contains("\nkey        F# dorian ; sure\n; key ", now, StringComparison.Ordinal);
        Assert.Contains("tuning     D2 A2 D3 G3 A3 D4", now, StringComparison.Ordinal);
        Assert.Equal(0, (await Launch.RunAsync(scene, "rebar", "song", "--undo")).ExitCode);
        Assert.Contains("F# dorian ; sure", File.ReadAllText(path), StringComparison.Ordinal);
    }
}
