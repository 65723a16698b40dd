using System.Text;
using Harkbook.Audio.Recordings;
using Harkbook.Jobs.Files;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;

namespace Harkbook.Workbench.Desk;

/// <summary>
/// A song that lies open: one for all who look at it. Every decision is an edit of the song file, made on what the file says at that moment, written at once
/// and whole, with its line in the journal before it; what follows from it is read in the background (<see cref="DeskWork"/>).
/// </summary>
public sealed class SongDesk
{
    private readonly SemaphoreSlim gate = new(1, 1);
    private readonly SongJournal journal;
    private readonly TimeProvider clock;
    private readonly bool hasPreamble;
    private (DateTime Written, long Length) seen;

    private SongDesk(string songPath, SongDocument document, TimeProvider clock)
    {
        (SongPath, this.clock) = (songPath, clock);
        hasPreamble = File.ReadAllBytes(songPath).AsSpan().StartsWith(Encoding.UTF8.Preamble);
        journal = SongJournal.Open(songPath, document.Text, clock);
        seen = Stamp();
        View = Told(new(1, document, document.Song!));
    }

    /// <param name="songPath">Of a file without mistakes.</param>
    /// <exception cref="UserException">The file has mistakes.</exception>
    public static SongDesk Open(string songPath, TimeProvider clock)
    {
        var document = SongFolder.Document(songPath);
        return document.Song is not null ? new(songPath, document, clock)
            : throw new UserException($"{Path.GetFileName(songPath)} has mistakes: {string.Join(" ", document.Diagnostics.Where(
                d => d.Severity == Severity.Error).Take(3).Select(d => $"line {d.Line}: {d.Message}"))}");
    }

    public string SongPath { get; }

    public SongFolder Folder => new(SongPath, View.Song);

    public DeskView View { get; private set; }

    /// <summary>Whoever shows the song shows it anew.</summary>
    public event Action? Changed;

    /// <summary>The text is another; what hangs on it is to be found out again.</summary>
    public event Action<ChangeKind>? Edited;

    /// <summary>Decides something: edits the file and saves it.</summary>
    /// <param name="what">In a few words: "bar 9: Bm".</param>
    /// <returns>Whether the song took it; where not, the view says why.</returns>
    public Task<bool> DecideAsync(string what, Func<SongDocument, SongDocument> edit) => ChangeAsync(ChangeKind.Decided, what, edit);

    /// <summary>Puts in what follows from a decision, if the song is still the version that it was found for.</summary>
    /// <param name="version">Of the view that it was found for.</param>
    public Task<bool> FollowAsync(int version, string text) =>
        ChangeAsync(ChangeKind.Reheard, "what followed", document => View.Version == version ? SongText.Parse(text, document.FileName) : document);

    /// <summary>Takes the last decision back, with what followed from it.</summary>
    public Task UndoAsync() => StepAsync(ChangeKind.Undone, () =>
    {
        var followed = journal.LastDone is { Kind: ChangeKind.Reheard };
        var undone = journal.Undo();
        return followed && journal.LastDone is { Kind: ChangeKind.Decided } ? journal.Undo() : undone;
    });

    /// <summary>Makes again what was taken back last.</summary>
    public Task RedoAsync() => StepAsync(ChangeKind.Redone, () =>
    {
        var redone = journal.Redo();
        if (journal.LastUndone is { Kind: ChangeKind.Reheard })
            journal.Redo();
        return redone;
    });

    /// <summary>Takes in what another program has written into the file since it was last looked at.</summary>
    public async Task LookAgainAsync()
    {
        if (Stamp() == seen)
            return;
        await gate.WaitAsync();
        try
        {
            TakeIn();
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>Tells something about the song that isn't in its file.</summary>
    public void Tell(Func<DeskView, DeskView> told)
    {
        lock (journal)
            View = told(View);
        Changed?.Invoke();
    }

    private async Task<bool> ChangeAsync(ChangeKind kind, string what, Func<SongDocument, SongDocument> edit)
    {
        await gate.WaitAsync();
        try
        {
            TakeIn();
            if (!View.Mistakes.IsEmpty)
                return Refuse("The file has mistakes that another program wrote; mend them there, or take that change back.");
            var (before, after) = (View.Song, edit(View.Document));
            if (after.Diagnostics.FirstOrDefault(d => d.Severity == Severity.Error) is { } mistake)
                return Refuse($"This can't stand in the song: {mistake.Message}");
            if (after.Text == View.Document.Text)
                return true;
            journal.Append(kind, what, after.Text);
            Save(after.Text);
            Show(after, kind, view => kind == ChangeKind.Reheard ? view with { Followed = Difference.Between(before, after.Song!) }
                : view with { Decision = what, Followed = [] });
            return true;
        }
        catch (Exception e) when (e is ArgumentException or RebarException or UserException or UnwritableFileException or IOException)
        {
            return Refuse(e.Message);
        }
        finally
        {
            gate.Release();
        }
    }

    private async Task StepAsync(ChangeKind kind, Func<JournalEntry?> step)
    {
        await gate.WaitAsync();
        try
        {
            TakeIn();
            if (step() is not { } entry)
                return;
            Save(journal.Text);
            var words = kind == ChangeKind.Undone ? "taken back" : "made again";
            Show(SongText.Parse(journal.Text, SongPath), kind, view => view with { Decision = $"{words}: {entry.What}", Followed = [] });
        }
        catch (Exception e) when (e is UnwritableFileException or IOException)
        {
            Refuse(e.Message);
        }
        finally
        {
            gate.Release();
        }
    }

    private void TakeIn()
    {
        seen = Stamp();
        var document = SongFolder.Document(SongPath);
        if (journal.Find(document.Text))
            Show(document, ChangeKind.Outside, view => view with { Decision = "another program changed the file", Followed = [] });
    }

    private void Save(string text)
    {
        byte[] bytes = [.. hasPreamble ? Encoding.UTF8.Preamble : [], .. Encoding.UTF8.GetBytes(text)];
        AtomicFile.Write(SongPath, stream => stream.Write(bytes));
        seen = Stamp();
    }

    private void Show(SongDocument document, ChangeKind kind, Func<DeskView, DeskView> told)
    {
        Tell(view => Told(told(view with { Version = view.Version + 1, Document = document, Song = document.Song ?? view.Song, Said = null })));
        Edited?.Invoke(kind);
    }

    private DeskView Told(DeskView view) => view with { Undoable = journal.LastDone?.What, Redoable = journal.LastUndone?.What };

    private bool Refuse(string why)
    {
        Tell(view => view with { Said = why });
        return false;
    }

    private (DateTime, long) Stamp() => new FileInfo(SongPath) is { Exists: true } file ? (file.LastWriteTimeUtc, file.Length) : default;
}
