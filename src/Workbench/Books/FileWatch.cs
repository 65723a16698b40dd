namespace Harkbook.Workbench.Books;

/// <summary>Looks once a second whether another program wrote a song that lies open.</summary>
public sealed class FileWatch : IDisposable
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    private readonly ITimer timer;

    public FileWatch(Bookcase books, TimeProvider clock) => timer = clock.CreateTimer(_ => _ = LookAsync(books), null, Pause, Pause);

    public void Dispose() => timer.Dispose();

    private static async Task LookAsync(Bookcase books)
    {
        foreach (var desk in books.Open)
        {
            try
            {
                await desk.LookAgainAsync();
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or Jobs.Files.UserException)
            {
                desk.Tell(view => view with { Said = e.Message });
            }
        }
    }
}
