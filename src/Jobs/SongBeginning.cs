using System.Text;
using Harkbook.Audio.Recordings;
using Harkbook.Jobs.Files;
using Harkbook.Listening;
using Harkbook.Listening.Proposing;
using Harkbook.Listening.Reading;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;

namespace Harkbook.Jobs;

/// <summary>Begins a song from what was heard of its recording. What is told counts as decided, all else as heard.</summary>
/// <param name="Folder">The song's folder.</param>
/// <param name="Bring">Whether the recording is copied into the song's folder, where it isn't there yet.</param>
public sealed record SongBeginning(string Folder, string Title, bool Bring)
{
    public string SongPath => Path.Combine(Folder, Slug(Title) + SongFolder.Ending);

    /// <summary>What is sure enough to be written.</summary>
    public DraftOptions Draft { get; init; } = new();

    /// <summary>How the bars of the proposal are to be changed; null where they stay.</summary>
    public Func<SongDocument, BarChange>? Bars { get; init; }

    /// <exception cref="UserException">A song is there already.</exception>
    public void RequireNone()
    {
        if (File.Exists(SongPath))
            throw new UserException($"{SongPath} is there already and was not touched. To propose anew what still stands as heard and keep what you decided, "
                + "add --again; or choose another folder with --into.");
    }

    /// <summary>Writes the song file; refuses to write over one.</summary>
    /// <param name="recordingPath">The recording as the person named it.</param>
    /// <returns>What the song was proposed from, and what was proposed.</returns>
    public async Task<(Hearing Hearing, Song Proposed)> WriteAsync(string recordingPath, Hearing heard, Claims claims, CancellationToken ct)
    {
        RequireNone();
        using var place = OutputPlace.ForFolder(Folder, "--into");
        var hearing = Reader.Again(heard, claims, ct);
        var song = SongProposer.Propose(hearing, Title, Bring ? await RecordingCopy.BringAsync(hearing.Recording with { Path = recordingPath }, Folder, ct)
            : Path.GetRelativePath(Path.GetFullPath(Folder), Path.GetFullPath(recordingPath)).Replace('\\', '/'), Draft);
        var text = DraftQuestions.Before(Barred(SongText.Write(song)), [.. TuningQuestion.Of(hearing, song), .. NoteQuestion.Of(hearing, song)]);
        await AtomicFile.WriteAsync(SongPath, async (stream, token) => await stream.WriteAsync(Encoding.UTF8.GetBytes(text), token), ct);
        return (hearing, song);
    }

    /// <summary>"night_train-02" → "Night train 02".</summary>
    public static string TitleOf(string recordingPath)
    {
        var words = Path.GetFileNameWithoutExtension(recordingPath).Replace('_', ' ').Replace('-', ' ').Trim();
        return words.Length == 0 ? "Untitled" : char.ToUpperInvariant(words[0]) + words[1..];
    }

    /// <summary>Letters and digits in lower case, words joined by hyphens.</summary>
    public static string Slug(string title)
    {
        var slug = new StringBuilder();
        foreach (var c in title.ToLowerInvariant())
        {
            if (char.IsLetterOrDigit(c))
                slug.Append(c);
            else if (slug.Length > 0 && slug[^1] != '-')
                slug.Append('-');
        }
        var text = slug.ToString().Trim('-');
        return text.Length == 0 ? "song" : text;
    }

    /// <summary>The proposal, in the bars that the person asks for; one without beats has none to change.</summary>
    private string Barred(string text)
    {
        if (Bars is null || SongText.Parse(text, SongPath) is not { Song: { } song } document || !song.Bars.Any())
            return text;
        try
        {
            return SongRebarring.Of(document, Bars(document)).Text;
        }
        catch (RebarException e)
        {
            throw new UserException($"{SongPath}: {e.Message} The file was not touched.");
        }
    }
}
