using System.Collections.Concurrent;
using System.Collections.Immutable;
using Harkbook.Jobs.Files;
using Harkbook.Workbench.Desk;

namespace Harkbook.Workbench.Books;

/// <summary>A songbook's folder: the songs in it, and those that lie open.</summary>
public sealed class Bookcase(string folder, TimeProvider clock) : IDisposable
{
    private readonly ConcurrentDictionary<string, (SongDesk Desk, DeskWork Work)> open = new(StringComparer.Ordinal);
    private readonly Lock opening = new();

    /// <summary>Whoever opens a folder of everything they have is to wait for no search of all of it.</summary>
    private const int Deepest = 5;

    public InsideFolder Inside { get; } = new(folder);

    /// <summary>The songs by title; files that can't be read, and what links lead to outside the folder, are left out.</summary>
    public ImmutableArray<ShelfSong> Songs() =>
        [.. SongShelf.FilesOf(Inside.Root, Deepest).Where(f => Inside.Judge(f) is not null).Select(Read).OfType<ShelfSong>()
            .OrderBy(s => s.Title, StringComparer.CurrentCultureIgnoreCase)];

    /// <summary>The file of a song; null where the folder has none of that name.</summary>
    public string? FileOf(string id) => Inside.Judge(id + SongFolder.Ending) is { } file && File.Exists(file) ? file : null;

    /// <summary>Lays a song open, or gives the desk that it lies open on; null where there is none of that name.</summary>
    /// <exception cref="UserException">The file has mistakes.</exception>
    public SongDesk? Desk(string id)
    {
        if (FileOf(id) is not { } file)
            return null;
        lock (opening)
            return open.GetOrAdd(file, Lay).Desk;
    }

    /// <summary>The desks of the songs that lie open.</summary>
    public IEnumerable<SongDesk> Open => open.Values.Select(o => o.Desk);

    public void Dispose()
    {
        foreach (var (_, work) in open.Values)
            work.Dispose();
    }

    private (SongDesk, DeskWork) Lay(string file)
    {
        var desk = SongDesk.Open(file, clock);
        return (desk, new(desk));
    }

    private ShelfSong? Read(string file)
    {
        try
        {
            return ShelfSong.Read(Inside.Root, file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or UserException)
        {
            return null;
        }
    }
}
