using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace Harkbook.Workbench.Desk;

/// <summary>
/// Every change of a song file, a line of JSON each, beside the song as "night-ferry.journal.jsonl": what undoing and redoing go by, across restarts. The
/// song file is the truth; where it says something else than the journal's end, that is taken in as a change from outside. A line is flushed to the disk
/// before the song file is written, and one that was cut off by a crash counts for nothing.
/// </summary>
public sealed class SongJournal
{
    private readonly string path;
    private readonly TimeProvider clock;
    private readonly Stack<JournalEntry> done = [];
    private readonly Stack<JournalEntry> undone = [];
    private bool isBegun;

    private SongJournal(string path, TimeProvider clock) => (this.path, this.clock) = (path, clock);

    /// <summary>The song's text as of the last change.</summary>
    public string Text { get; private set; } = "";

    /// <summary>What undoing would take back; null where there is nothing.</summary>
    public JournalEntry? LastDone => done.TryPeek(out var entry) ? entry : null;

    /// <summary>What redoing would make again; null where there is nothing.</summary>
    public JournalEntry? LastUndone => undone.TryPeek(out var entry) ? entry : null;

    public static string PathOf(string songPath) => Path.ChangeExtension(songPath, ".journal.jsonl");

    /// <param name="text">What the song file says now.</param>
    public static SongJournal Open(string songPath, string text, TimeProvider clock)
    {
        var journal = new SongJournal(PathOf(songPath), clock);
        journal.Replay();
        journal.Find(text);
        return journal;
    }

    /// <summary>Takes in what the file says, if that is something else than the journal's end.</summary>
    /// <returns>Whether it was.</returns>
    public bool Find(string text)
    {
        if (isBegun && text == Text)
            return false;
        if (isBegun)
            Append(ChangeKind.Outside, "a change from outside the workbench", text);
        else
            Append(ChangeKind.Begun, "begun", text);
        return true;
    }

    public void Append(ChangeKind kind, string what, string after)
    {
        var entry = new JournalEntry(clock.GetUtcNow(), kind, what, TextPatch.Between(Text, after), Hash(after));
        using (var file = new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.Read))
        {
            StartLine(file);
            file.Write([.. JsonSerializer.SerializeToUtf8Bytes(entry), (byte)'\n']);
            file.Flush(flushToDisk: true);
        }
        Take(entry, after);
    }

    /// <summary>Takes the last change back.</summary>
    /// <returns>What was taken back; null where there is nothing.</returns>
    public JournalEntry? Undo() => Step(ChangeKind.Undone, LastDone, LastDone?.Patch.Reversed());

    public JournalEntry? Redo() => Step(ChangeKind.Redone, LastUndone, LastUndone?.Patch);

    private JournalEntry? Step(ChangeKind kind, JournalEntry? meant, TextPatch? patch)
    {
        if (meant is null || patch?.Onto(Text) is not { } text)
            return null;
        Append(kind, meant.What, text);
        return meant;
    }

    /// <summary>Behind the last whole line; one that a crash cut off is ended, so that it stays one line.</summary>
    private static void StartLine(FileStream file)
    {
        if (file.Length == 0)
            return;
        file.Seek(-1, SeekOrigin.End);
        if (file.ReadByte() != '\n')
            file.WriteByte((byte)'\n');
    }

    private void Take(JournalEntry entry, string after)
    {
        (Text, isBegun) = (after, true);
        if (entry.Kind == ChangeKind.Undone)
        {
            undone.Push(done.Pop());
        }
        else if (entry.Kind == ChangeKind.Redone)
        {
            done.Push(undone.Pop());
        }
        else if (entry.Kind != ChangeKind.Begun)
        {
            done.Push(entry);
            undone.Clear();
        }
    }

    private void Replay()
    {
        foreach (var line in File.Exists(path) ? File.ReadLines(path) : [])
        {
            if (Read(line) is { } entry && entry.Patch.Onto(Text) is { } after && Hash(after) == entry.After && CanTake(entry))
                Take(entry, after);
        }
    }

    private bool CanTake(JournalEntry entry) => entry.Kind switch
    {
        ChangeKind.Undone => done.Count > 0,
        ChangeKind.Redone => undone.Count > 0,
        _ => true,
    };

    private static JournalEntry? Read(string line)
    {
        try
        {
            return JsonSerializer.Deserialize<JournalEntry>(line);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static string Hash(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
