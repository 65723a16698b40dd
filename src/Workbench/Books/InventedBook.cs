using Harkbook.Units;

namespace Harkbook.Workbench.Books;

/// <summary>The invented songbook that an empty shelf offers to make, for whoever has no recording at hand.</summary>
public sealed class InventedBook(WorkbenchOptions options, Bookcase books) : IProgress<Progress>
{
    public bool IsOffered => options.MakeInvented is not null && !IsRunning;

    public bool IsRunning { get; private set; }

    public Progress Now { get; private set; }

    /// <summary>Why it wasn't made; null where that isn't so.</summary>
    public string? Trouble { get; private set; }

    public event Action? Changed;

    public void Report(Progress value)
    {
        Now = value;
        Changed?.Invoke();
    }

    public async Task MakeAsync(CancellationToken ct)
    {
        if (options.MakeInvented is not { } make || IsRunning)
            return;
        (IsRunning, Trouble) = (true, null);
        try
        {
            await make(books.Inside.Root, this, ct);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or Jobs.Files.UserException or Audio.Recordings.UnwritableFileException)
        {
            Trouble = e.Message;
        }
        IsRunning = false;
        Changed?.Invoke();
    }
}
