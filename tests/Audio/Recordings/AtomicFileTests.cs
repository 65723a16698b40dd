using Harkbook.Audio.Recordings;

namespace Harkbook.Audio.Tests.Recordings;

public sealed class AtomicFileTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void WholeFileReplacesTheOldOne()
    {
        var path = folder.File("a.txt", Bytes.Ascii("old"));
        AtomicFile.Write(path, stream => stream.Write("new"u8));
        Assert.Equal("new", File.ReadAllText(path));
        Assert.Equal(["a.txt"], folder.Names);
    }

    [Fact]
    public void FailureLeavesTheOldFileAndNothingElse()
    {
        var path = folder.File("a.txt", Bytes.Ascii("old"));
        Assert.Throws<InvalidDataException>(() => AtomicFile.Write(path, stream =>
        {
            stream.Write("half"u8);
            throw new InvalidDataException();
        }));
        Assert.Equal("old", File.ReadAllText(path));
        Assert.Equal(["a.txt"], folder.Names);
    }

    [Fact]
    public async Task CancellingLeavesNothing()
    {
        using var stop = new CancellationTokenSource();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => AtomicFile.WriteAsync(folder.File("a.txt"), async (stream, ct) =>
        {
            await stream.WriteAsync(Bytes.Ascii("half"), ct);
            stop.Cancel();
        }, stop.Token));
        Assert.Empty(folder.Names);
    }

    [Fact]
    public void FolderThatIsNotThereIsNamed()
    {
        var e = Assert.Throws<UnwritableFileException>(() => AtomicFile.Write(folder.File("no/a.txt"), _ => { }));
        Assert.Contains("doesn't exist", e.Message);
    }

    [Fact]
    public void FolderInPlaceOfAFileIsNamed()
    {
        var e = Assert.Throws<UnwritableFileException>(() => AtomicFile.Write(folder.Root, _ => { }));
        Assert.Contains("this is a folder", e.Message);
    }

    [Fact]
    public void NoPermissionIsSaid()
    {
        var e = Assert.Throws<UnwritableFileException>(() => AtomicFile.Write(folder.File("a.txt"), _ => throw new UnauthorizedAccessException()));
        Assert.Contains("no permission to write", e.Message);
    }

    // Linux gives a device that is always full: ENOSPC (full(4)).
    [Fact]
    public void FullDiskIsSaid()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "Only Linux has /dev/full.");
        var e = Assert.Throws<UnwritableFileException>(() => AtomicFile.Write(folder.File("a.txt"), _ =>
        {
            using var full = new FileStream("/dev/full", FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
            full.Write("x"u8);
        }));
        Assert.Contains("the disk is full", e.Message);
        Assert.Empty(folder.Names);
    }
}
