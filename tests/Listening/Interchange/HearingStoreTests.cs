using CsCheck;

namespace Harkbook.Listening.Tests.Interchange;

/// <summary>What was heard is kept, and a folder or file that can't be used harms nothing.</summary>
public sealed class HearingStoreTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("harkbook-store-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void WhatIsKeptIsFoundUnderTheRecordingsPresentName()
    {
        var hearing = One();
        var store = new HearingStore(Path.Combine(folder, "new"));
        store.Keep(hearing);
        var found = store.Find(hearing.Recording with { Path = "moved.wav" })!;
        Assert.Equal("moved.wav", found.Recording.Path);
        Assert.Equal(hearing.Notes, found.Notes);
        Assert.Null(store.Find(hearing.Recording with { ContentHash = new string('b', 64) }));
    }

    [Fact]
    public void ADamagedFileIsAsGoodAsAbsent()
    {
        var hearing = One();
        var store = new HearingStore(folder);
        store.Keep(hearing);
        var file = Assert.Single(Directory.GetFiles(folder));
        File.WriteAllBytes(file, File.ReadAllBytes(file)[..^9]);
        Assert.Null(store.Find(hearing.Recording));
    }

    [Fact]
    public void AFolderThatCannotBeMadeKeepsNothing()
    {
        var hearing = One();
        File.WriteAllText(Path.Combine(folder, "file"), "");
        var store = new HearingStore(Path.Combine(folder, "file", "store"));
        store.Keep(hearing);
        Assert.Null(store.Find(hearing.Recording));
        Assert.Equal(["file"], Directory.GetFileSystemEntries(folder).Select(Path.GetFileName));
    }

    private static Hearing One()
    {
        Hearing? made = null;
        AnyHearing.Whole.Sample(hearing => made ??= hearing, iter: 1, seed: "0000KOIPe036", threads: 1);
        return made!;
    }
}
