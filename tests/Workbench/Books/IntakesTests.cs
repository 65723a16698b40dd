using System.Text;
using Harkbook.Jobs.Files;
using Harkbook.Workbench.Books;

namespace Harkbook.Workbench.Tests.Books;

/// <summary>Files that are dropped and are no sound: they are told so, and nothing of them stays.</summary>
public sealed class IntakesTests : IAsyncDisposable
{
    private readonly SampleBook book = new();
    private readonly Intakes intakes;

    public IntakesTests() => intakes = new(new(book.Folder, TimeProvider.System));

    public async ValueTask DisposeAsync()
    {
        await intakes.DisposeAsync();
        book.Dispose();
    }

    /// <summary>A text under a sound's name; the list of another file, as HTTP live streaming writes it (RFC 8216); the head of a WAV file that promises four
    /// gigabytes and holds nothing.</summary>
    [Theory]
    [InlineData("take.mp3", "no sound at all")]
    [InlineData("take.m3u8", "#EXTM3U\n#EXTINF:10,\n/etc/hostname\n#EXT-X-ENDLIST\n")]
    [InlineData("take.wav", "RIFF\u007f\u007f\u007f\u007fWAVEfmt \u0010\0\0\0\u0001\0\u0002\0\u0044\u0022\0\0\u0044\u0022\0\0\u0004\0\u0010\0"
        + "data\u007f\u007f\u007f\u007f")]
    [InlineData("../../take.ogg", "OggS")]
    public async Task WhatIsNoSoundIsToldAndLeavesNothing(string name, string content)
    {
        var before = Entries();

        var intake = await intakes.TakeAsync(name, new MemoryStream(Encoding.Latin1.GetBytes(content)), TestContext.Current.CancellationToken);
        var ended = new TaskCompletionSource();
        intake.Changed += () =>
        {
            if (!intake.IsRunning)
                ended.TrySetResult();
        };
        if (intake.IsRunning)
            await ended.Task.WaitAsync(TestContext.Current.CancellationToken);

        Assert.NotNull(intake.Trouble);
        Assert.Null(intake.Song);
        Assert.Equal(before, Entries());
    }

    [Fact]
    public async Task AnEmptyFileIsRefusedAtOnce()
    {
        var before = Entries();
        await Assert.ThrowsAsync<UserException>(() => intakes.TakeAsync("a.wav", Stream.Null, TestContext.Current.CancellationToken));
        Assert.Equal(before, Entries());
    }

    private string[] Entries() => [.. Directory.GetFileSystemEntries(book.Outside, "*", SearchOption.AllDirectories).Order()];
}
