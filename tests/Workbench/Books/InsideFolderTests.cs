using Harkbook.Publishing.Tests.Lessons;
using Harkbook.Workbench.Books;

namespace Harkbook.Workbench.Tests.Books;

/// <summary>Paths as POSIX resolves them (IEEE Std 1003.1, 4.16 "Pathname Resolution"): links are followed one by one, dots after them.</summary>
public sealed class InsideFolderTests : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private readonly InsideFolder inside;
    private readonly string root;

    public InsideFolderTests()
    {
        Directory.CreateDirectory(folder.At("book/song"));
        Directory.CreateDirectory(folder.At("elsewhere/deep"));
        File.WriteAllText(folder.At("book/song/a.hark"), "");
        Directory.CreateSymbolicLink(folder.At("book/within"), folder.At("book/song"));
        Directory.CreateSymbolicLink(folder.At("book/out"), folder.At("elsewhere"));
        Directory.CreateSymbolicLink(folder.At("book/up"), "..");
        Directory.CreateSymbolicLink(folder.At("book/round"), "round");
        Directory.CreateSymbolicLink(folder.At("book/chain"), "out/deep");
        Directory.CreateSymbolicLink(folder.At("entrance"), folder.At("book"));
        inside = new(folder.At("entrance"));
        root = inside.Root;
    }

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("song/a.hark", "song/a.hark")]
    [InlineData("./song/../song/a.hark", "song/a.hark")]
    [InlineData("within/a.hark", "song/a.hark")]
    [InlineData("up/book/song/a.hark", "song/a.hark")]
    [InlineData("song/not-yet.wav", "song/not-yet.wav")]
    public void WhatLiesInsideIsFoundWhereItTrulyLies(string path, string real) => Assert.Equal(Path.Combine(root, real), inside.Judge(path));

    [Theory]
    [InlineData("..")]
    [InlineData("../elsewhere")]
    [InlineData("song/../../elsewhere/a")]
    [InlineData("/etc/passwd")]
    [InlineData("out/a.hark")]
    [InlineData("up/elsewhere")]
    [InlineData("chain/a.hark")]
    [InlineData("within/../../elsewhere")]
    [InlineData("round/a.hark")]
    [InlineData("song/a.hark\0.wav")]
    public void WhatLiesOutsideIsNotThere(string path) => Assert.Null(inside.Judge(path));

    [Fact]
    public void AFolderOfALongerNameIsAnother()
    {
        Directory.CreateDirectory(root + "-too");
        Assert.Null(inside.Judge(root + "-too/a.hark"));
        Directory.Delete(root + "-too");
    }
}
