using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Text;
using Harkbook.Jobs;
using Harkbook.Jobs.Files;

namespace Harkbook.Workbench.Books;

/// <summary>The recordings that were dropped on the shelf. They are listened to one after another.</summary>
public sealed class Intakes(Bookcase books) : IAsyncDisposable
{
    /// <summary>An hour and a half of sound as a CD has it.</summary>
    public const long LargestBytes = 1L << 30;

    private readonly SemaphoreSlim one = new(1, 1);
    private readonly ConcurrentBag<Task> runs = [];

    public ImmutableArray<Intake> All { get; private set; } = [];

    public event Action? Changed;

    /// <summary>Takes a file in, into a folder of its own, and begins a song from it.</summary>
    /// <param name="name">As the person's file is called; only its last part counts.</param>
    /// <exception cref="UserException">The file is too large or empty.</exception>
    public async Task<Intake> TakeAsync(string name, Stream sound, CancellationToken ct)
    {
        var folder = FreshFolder(SongBeginning.Slug(SongBeginning.TitleOf(name)));
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, Plain(name));
        try
        {
            await CopyAsync(sound, path, ct);
        }
        catch
        {
            Directory.Delete(folder, recursive: true);
            throw;
        }
        var intake = new Intake(books.Inside.Root, path);
        intake.Changed += () => Changed?.Invoke();
        All = All.Add(intake);
        runs.Add(RunAsync(intake));
        return intake;
    }

    public void Forget(Intake intake)
    {
        All = All.Remove(intake);
        Changed?.Invoke();
    }

    /// <summary>Stops what is going on, and waits until nothing of it is left.</summary>
    public async ValueTask DisposeAsync()
    {
        foreach (var intake in All)
            intake.Stop();
        await Task.WhenAll(runs);
    }

    private async Task RunAsync(Intake intake)
    {
        await one.WaitAsync();
        try
        {
            await intake.RunAsync();
        }
        finally
        {
            one.Release();
        }
    }

    private static async Task CopyAsync(Stream sound, string path, CancellationToken ct)
    {
        await using var file = new FileStream(path, FileMode.CreateNew, FileAccess.Write);
        var (block, length) = (new byte[1 << 16], 0L);
        for (int read; (read = await sound.ReadAsync(block, ct)) > 0;)
        {
            if ((length += read) > LargestBytes)
                throw new UserException($"The file is larger than {LargestBytes >> 30} GB. Cut the song out first, or save it compressed.");
            await file.WriteAsync(block.AsMemory(0, read), ct);
        }
        if (length == 0)
            throw new UserException("The file is empty. Copy or download it again.");
    }

    private string FreshFolder(string slug)
    {
        var root = books.Inside.Root;
        return Enumerable.Range(1, int.MaxValue).Select(n => Path.Combine(root, n == 1 ? slug : $"{slug}-{n}")).First(f => !Path.Exists(f));
    }

    /// <summary>Letters, digits and a few signs; whatever else a name from elsewhere holds becomes "_".</summary>
    private static string Plain(string name)
    {
        var last = name[(name.LastIndexOfAny(['/', '\\']) + 1)..];
        var plain = new StringBuilder();
        foreach (var c in last.TrimStart('.', '-'))
            plain.Append(char.IsLetterOrDigit(c) || c is '.' or '-' or '_' or ' ' or '(' or ')' ? c : '_');
        return plain.Length is 0 or > 200 ? "recording" : plain.ToString();
    }
}
