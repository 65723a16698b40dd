using Harkbook.Jobs.Files;
using System.Text;
using Harkbook.App.Messages;
using Harkbook.Music.Songs;

namespace Harkbook.App.Files;

/// <summary>An edit of a song file: shown line by line, and written where that is asked for.</summary>
internal static class SongChange
{
    /// <summary>The file as it stands, to be edited.</summary>
    public static SongDocument DocumentOf(SongFolder opened) => SongFolder.Document(opened.SongPath);

    /// <summary>Prints each line that goes ("-") or comes ("+"), then, where that is asked for, keeps the file as it was and writes it
    /// whole or not at all.</summary>
    /// <param name="what">The command's words, such as "taps --write".</param>
    public static async Task ShowAsync(SongDocument before, SongDocument after, bool write, string what, CancellationToken ct)
    {
        RequireSong(after);
        string[] lines = [.. TextChanges.Between(before.Text, after.Text)];
        foreach (var line in lines)
            Console.Out.WriteLine(line);
        SayWhatIsNew(before, after);
        if (lines.Length == 0)
            Console.Error.WriteLine($"harkbook: {before.FileName}: says this already; nothing was changed.");
        else if (!write)
            Console.Error.WriteLine($"harkbook: {before.FileName}: not changed yet. Look at the lines, then put them in with --write.");
        else
            await WriteAsync(before, after, what, ct);
    }

    /// <summary>Hints and warnings that the song had no reason for before.</summary>
    private static void SayWhatIsNew(SongDocument before, SongDocument after)
    {
        var known = before.Diagnostics.Select(d => d.Message).ToHashSet();
        foreach (var news in after.Diagnostics.Where(d => !known.Contains(d.Message)))
            Console.Error.WriteLine(news);
    }

    private static async Task WriteAsync(SongDocument before, SongDocument after, string what, CancellationToken ct)
    {
        var now = File.ReadAllBytes(before.FileName);
        byte[] made = [.. now.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? Encoding.UTF8.Preamble : [], .. Encoding.UTF8.GetBytes(after.Text)];
        var kept = await new EarlierFiles(before.FileName, TimeProvider.System).ReplaceAsync(now, made, what, ct);
        Console.Error.WriteLine($"harkbook: {before.FileName}: changed as shown. {Output.WayBack(kept, before.FileName)}");
    }

    private static void RequireSong(SongDocument after)
    {
        var mistakes = after.Diagnostics.Where(d => d.Severity == Severity.Error).ToList();
        foreach (var mistake in mistakes)
            Console.Error.WriteLine(mistake);
        if (mistakes.Count > 0)
            throw new UserException($"{after.FileName}: with this the song would have the mistakes listed above, so the file was not touched. Change what "
                + "stands against it first.");
    }
}
