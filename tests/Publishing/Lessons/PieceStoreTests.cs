using Harkbook.Publishing.Lessons.Pieces;

namespace Harkbook.Publishing.Tests.Lessons;

public sealed class PieceStoreTests
{
    [Fact]
    public void WhatWasUnusedTheLongestGoesFirst()
    {
        using var folder = new TemporaryFolder();
        var clock = new Clock();
        var store = new PieceStore(folder.At("store"), clock, room: 2500);
        File.WriteAllBytes(folder.At("piece"), new byte[1000]);
        foreach (var key in new[] { "a", "b", "c" })
            store.Keep(key, folder.At("piece"));
        foreach (var key in new[] { "b", "c", "a" })
            Assert.True(store.TryTake(key, folder.At("out")));
        store.Thin();
        Assert.False(store.TryTake("b", folder.At("out")));
        Assert.True(store.TryTake("a", folder.At("out")));
        Assert.True(store.TryTake("c", folder.At("out")));
    }

    [Fact]
    public void WithoutAFolderNothingIsKeptAndNothingFails()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder.At("piece"), new byte[10]);
        var store = new PieceStore(folder.At("piece"), TimeProvider.System);
        store.Keep("a", folder.At("piece"));
        store.Thin();
        Assert.False(store.TryTake("a", folder.At("out")));
    }

    /// <summary>An hour later at each question.</summary>
    private sealed class Clock : TimeProvider
    {
        private DateTimeOffset now = new(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => now += TimeSpan.FromHours(1);
    }
}
