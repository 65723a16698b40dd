using Harkbook.Audio.Recordings;
using Harkbook.Music.Songs;

namespace Harkbook.Jobs.Files;

/// <summary>A song file on disk with the folder that it lives in.</summary>
public sealed record SongFolder(string SongPath, Song Song)
{
    public const string Ending = ".hark";

    /// <summary>A song of a thousand bars takes about 100 kB.</summary>
    private const int LargestBytes = 16 << 20;

    public string Folder => Path.GetDirectoryName(Path.GetFullPath(SongPath))!;

    public string Name => Path.GetFileNameWithoutExtension(SongPath);

    /// <summary>The recording's path; null when the song names none.</summary>
    public string? RecordingPath => Song.Recording is { } recording ? Path.Combine(Folder, recording.Path) : null;

    public string RequireRecording()
    {
        if (RecordingPath is not { } path)
            throw new UserException($"{SongPath}: names no recording. Add a line like 'recording  take.wav' to the song file.");
        return File.Exists(path)
            ? path
            : throw new UserException($"{SongPath}: its recording {path} is not there. Put it back, or mend the 'recording' line.");
    }

    /// <summary>This song, if it has bars to sound and publish.</summary>
    public SongFolder RequireBars() => Song.Bars.Any()
        ? this
        : throw new UserException(
            $"{SongPath}: the song has no bars yet, so there is nothing to sound or publish. Add a section and its bars; docs/song-file.md shows how.");

    /// <summary>What to know where the recording isn't the very file that the song was made from, or ends before the song's bars do.</summary>
    public IEnumerable<string> WarningsOf(Recording recording)
    {
        if (Song.Recording?.ContentHash is { } hash && hash != recording.ContentHash)
            yield return $"harkbook: {recording.Path}: this isn't the file that the song was made from (its SHA-256 differs), so times may be off. "
                + $"Put that file back, or mend the 'recording' line in {SongPath}.";
        // Where the song says how long its recording is, reading it told of the bars.
        if (Song.Recording?.Length is null && BarsPastEnd.Of(Song, recording.Length) is { } past)
            yield return $"{SongPath}: warning: {past} {BarsPastEnd.WhatToDo}";
    }

    /// <summary>Reads the song; what is wrong with it is said with file, line and column.</summary>
    /// <param name="say">Who is told of diagnostics, a line each.</param>
    /// <param name="withHints">Whether hints are said too; where many songs are read, they would hide what matters.</param>
    public static SongFolder Open(string path, Action<string> say, bool withHints = true)
    {
        var document = Document(Locate(path));
        // Assumed values matter to nobody while there is no song.
        foreach (var diagnostic in document.Diagnostics.Where(d => (document.Song is not null && withHints) || d.Severity != Severity.Hint))
            say(diagnostic.ToString());
        return document.Song is { } song
            ? new(document.FileName, song)
            : throw new UserException($"{document.FileName}: the song file has mistakes (listed above); mend them and run the command again. "
                + "The file was not touched.");
    }

    /// <summary>A song file as it stands, mistakes and all.</summary>
    public static SongDocument Document(string file) => SongText.Parse(ReadText(file), file);

    private static string ReadText(string file)
    {
        if (new FileInfo(file).Length > LargestBytes)
            throw NoSong(file);
        try
        {
            var text = File.ReadAllText(file);
            return text.Contains('\0', StringComparison.Ordinal) ? throw NoSong(file) : text;
        }
        catch (UnauthorizedAccessException)
        {
            throw new UserException($"{file}: no permission to read this file. Change its permissions, or copy the song to a folder of your own.");
        }
    }

    private static UserException NoSong(string file) =>
        new($"{file}: this is no song file, which is plain text. Give a {Ending} file or the folder that holds it; 'harkbook start RECORDING' makes one.");

    /// <summary>The song file that a path means: itself, or the only one of a folder.</summary>
    public static string Locate(string path)
    {
        if (File.Exists(path))
            return path;
        if (!Directory.Exists(path))
            throw new UserException($"{path}: there is no such song. Give a {Ending} file or the folder that holds it.");
        return SongsIn(path) switch
        {
            [var only] => only,
            [] => throw new UserException($"{path}: the folder holds no {Ending} file. 'harkbook start RECORDING' makes one."),
            var many => throw new UserException($"{path}: the folder holds {many.Length} song files; name the one that you mean."),
        };
    }

    private static string[] SongsIn(string folder)
    {
        try
        {
            return Directory.GetFiles(folder, "*" + Ending);
        }
        catch (UnauthorizedAccessException)
        {
            throw new UserException($"{folder}: no permission to look into this folder. Change its permissions.");
        }
    }
}
