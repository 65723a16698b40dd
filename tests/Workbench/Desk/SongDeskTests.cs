using Harkbook.Music.Songs;
using Harkbook.Units;
using Harkbook.Workbench.Desk;

namespace Harkbook.Workbench.Tests.Desk;

/// <summary>A song on the workbench and its file: what is shown as saved stands in it, and nothing else has changed.</summary>
public sealed class SongDeskTests : IDisposable
{
    private readonly SampleBook book = new();
    private readonly SongDesk desk;

    public SongDeskTests() => desk = SongDesk.Open(book.SongPath, TimeProvider.System);

    public void Dispose() => book.Dispose();

    private string File => System.IO.File.ReadAllText(book.SongPath);

    [Fact]
    public async Task ADecisionChangesItsOwnBytesAndNothingElse()
    {
        Assert.True(await desk.DecideAsync("bar 3: Am", d => d.WithChord(3, Beats.Zero, "D", Standing.Decided)));

        Assert.Equal(SampleBook.Text.Replace("D?44", "D"), File);
        Assert.Equal("bar 3: Am", desk.View.Undoable);
    }

    [Fact]
    public async Task WhatWouldMakeAMistakeIsRefusedAndSaid()
    {
        Assert.False(await desk.DecideAsync("nonsense", d => d.WithFact(SongFact.Key, "H major")));

        Assert.Equal(SampleBook.Text, File);
        Assert.NotNull(desk.View.Said);
        Assert.Null(desk.View.Undoable);
    }

    [Fact]
    public async Task UndoingGivesTheFileBackByteForByteAlsoAfterARestart()
    {
        await desk.DecideAsync("key", d => d.WithFact(SongFact.Key, "E minor", Standing.Decided));
        await desk.DecideAsync("shape", d => d.WithShapeStanding("G", Standing.Decided));
        var decided = File;

        var again = SongDesk.Open(book.SongPath, TimeProvider.System);
        await again.UndoAsync();
        await again.UndoAsync();
        Assert.Equal(SampleBook.Text, File);
        await again.RedoAsync();
        await again.RedoAsync();
        Assert.Equal(decided, File);
    }

    [Fact]
    public async Task AnEditIsMadeOnWhatAnotherProgramWroteSince()
    {
        await System.IO.File.WriteAllTextAsync(book.SongPath, SampleBook.Text.Replace("Lantern Row", "Lantern Lane"),
            TestContext.Current.CancellationToken);

        await desk.DecideAsync("key", d => d.WithFact(SongFact.Key, "E minor", Standing.Decided));

        Assert.Equal(SampleBook.Text.Replace("Lantern Row", "Lantern Lane").Replace("G major             ~heard 61%", "E minor"), File);
        await desk.UndoAsync();
        Assert.Contains("Lantern Lane", File);
        await desk.UndoAsync();
        Assert.Equal(SampleBook.Text, File);
    }

    [Fact]
    public async Task MistakesFromOutsideStopEditsUntilTheyAreTakenBack()
    {
        await System.IO.File.WriteAllTextAsync(book.SongPath, SampleBook.Text.Replace("G major", "H major"), TestContext.Current.CancellationToken);

        Assert.False(await desk.DecideAsync("key", d => d.WithFact(SongFact.Key, "E minor", Standing.Decided)));

        Assert.NotEmpty(desk.View.Mistakes);
        Assert.Equal("Lantern Row", desk.View.Song.Title);
        await desk.UndoAsync();
        Assert.Empty(desk.View.Mistakes);
        Assert.Equal(SampleBook.Text, File);
    }

    [Fact]
    public async Task ManyAtOnceLoseNothing()
    {
        var names = Enumerable.Range(1, 12).Select(n => $"Verse {n + 10}").ToArray();
        await Task.WhenAll(names.Select(n => Task.Run(() => desk.DecideAsync(n, d => d.WithSection(n)))));
        Assert.All(names, n => Assert.Contains($"section    {n}\n", File));
    }

    [Fact]
    public async Task WhatFollowedIsUndoneWithItsDecisionAndIsTakenBackAlone()
    {
        await desk.DecideAsync("key E minor", d => d.WithFact(SongFact.Key, "E minor", Standing.Decided));
        var decided = File;
        var followed = desk.View.Document.WithChord(1, Beats.Zero, "C").WithShape("G", Music.Instruments.Shapes.Shape.Parse("320033"));
        await desk.FollowAsync(desk.View.Version, followed.Text);
        Assert.Equal(["shape G: 320033, was 320003", "bar 1: C, was G", "bar 5: C, was G"], desk.View.Followed.Select(f => f.Words));

        await desk.DecideAsync("as it was", desk.View.Followed[0].Back!);
        Assert.Equal("320003", $"{desk.View.Song.Shapes[0].Shape}");
        Assert.Equal("C", desk.View.Song.Bars.First().Chords[0].Value.Name);
        await desk.UndoAsync();
        Assert.Equal(followed.Text, File);
        await desk.UndoAsync();
        Assert.Equal(SampleBook.Text, File);
        await desk.RedoAsync();
        Assert.Equal(followed.Text, File);
        Assert.NotEqual(decided, File);
    }

    [Fact]
    public async Task WhatFollowsFromAnOlderVersionIsLeftOut()
    {
        var old = desk.View;
        await desk.DecideAsync("key E minor", d => d.WithFact(SongFact.Key, "E minor", Standing.Decided));

        await desk.FollowAsync(old.Version, old.Document.WithChord(1, Beats.Zero, "C").Text);

        Assert.Equal("G", desk.View.Song.Bars.First().Chords[0].Value.Name);
    }
}
