using CsCheck;
using Harkbook.Publishing.Tests.Lessons;
using Harkbook.Workbench.Desk;

namespace Harkbook.Workbench.Tests.Desk;

/// <summary>The journal against what it stands for: a plain list of texts with a place in it.</summary>
public sealed class SongJournalTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    private string SongPath => folder.At("a.hark");

    public void Dispose() => folder.Dispose();

    [Fact]
    public void UndoingAndRedoingGoAcrossRestarts()
    {
        Write("one", "one two", "one two three");

        Assert.Equal("three", Open("one two three").LastDone!.What.Split(' ')[^1]);
        var journal = Open("one two three");
        journal.Undo();
        Assert.Equal("one two", journal.Text);
        journal = Open(journal.Text);
        journal.Undo();
        Assert.Equal("one", journal.Text);
        Assert.Null(journal.Undo());
        journal = Open(journal.Text);
        journal.Redo();
        journal = Open(journal.Text);
        journal.Redo();
        Assert.Equal("one two three", journal.Text);
        Assert.Null(journal.LastUndone);
    }

    [Fact]
    public void WhatAnotherProgramWroteIsTakenInAndCanBeTakenBack()
    {
        Write("one", "one two");

        var journal = Open("four");

        Assert.Equal(ChangeKind.Outside, journal.LastDone!.Kind);
        journal.Undo();
        Assert.Equal("one two", journal.Text);
    }

    /// <summary>As a crash leaves it: every length to which the last line can be cut off.</summary>
    [Fact]
    public void ALineThatACrashCutOffCountsForNothing()
    {
        Write("one", "one two");
        var whole = File.ReadAllBytes(SongJournal.PathOf(SongPath));
        var last = Array.LastIndexOf(whole, (byte)'\n', whole.Length - 2) + 1;
        for (var length = last; length < whole.Length - 1; length++)
        {
            File.WriteAllBytes(SongJournal.PathOf(SongPath), whole[..length]);
            var journal = Open("one");
            Assert.Null(journal.LastDone);
            journal.Append(ChangeKind.Decided, "then", "one and");
            Assert.Equal("one and", Open("one and").Text);
            Assert.Equal("then", Open("one and").LastDone!.What);
        }
    }

    /// <summary>The journal is written before the song: where the system stopped between, the song file is the truth.</summary>
    [Fact]
    public void ALineWhoseSongWasNeverWrittenIsUndoneByTheFile()
    {
        Write("one", "one two");

        var journal = Open("one");

        Assert.Equal("one", journal.Text);
        Assert.Equal(ChangeKind.Outside, journal.LastDone!.Kind);
    }

    [Fact]
    public void AnyRowOfEditsUndosAndRedosIsThatOfAList() => Gen.Select(Gen.Int[0, 3], Gen.String[Gen.Char["abc\n"], 0, 6]).Array[0, 25].Sample(steps =>
    {
        File.Delete(SongJournal.PathOf(SongPath));
        var journal = Open("");
        var (texts, at) = (new List<string> { "" }, 0);
        foreach (var (act, text) in steps)
        {
            if (act == 0)
            {
                journal.Undo();
                at = Math.Max(0, at - 1);
            }
            else if (act == 1)
            {
                journal.Redo();
                at = Math.Min(texts.Count - 1, at + 1);
            }
            else
            {
                journal.Append(ChangeKind.Decided, "edit", text);
                texts = [.. texts.Take(at + 1), text];
                at++;
            }
            if (act == 3)
                journal = Open(journal.Text);
            if (journal.Text != texts[at])
                return false;
        }
        return true;
    }, iter: 60, threads: 1);

    private void Write(params string[] texts)
    {
        var journal = Open(texts[0]);
        foreach (var text in texts.Skip(1))
            journal.Append(ChangeKind.Decided, $"to {text}", text);
    }

    private SongJournal Open(string text) => SongJournal.Open(SongPath, text, TimeProvider.System);
}
