namespace Harkbook.Audio.Recordings.Reading;

/// <summary>Says what is wrong with a file in words.</summary>
internal static class FileErrors
{
    public static void RequireFile(string path)
    {
        if (string.IsNullOrWhiteSpace(path))
            throw new RecordingException("No file was named. Give the path of a sound file.");
        if (Directory.Exists(path))
            throw new RecordingException($"{path}: this is a folder. Name one sound file in it.");
        if (!File.Exists(path))
            throw new RecordingException($"{path}: there is no such file. Check the name and the folder.");
        if (new FileInfo(path).Length == 0)
            throw new RecordingException($"{path}: the file is empty. Copy or download it again.");
    }

    /// <summary>Runs work on a file; the system's errors come out as a <see cref="RecordingException"/>.</summary>
    public static async Task<T> InWordsAsync<T>(string path, Func<Task<T>> work)
    {
        try
        {
            return await work();
        }
        catch (UnauthorizedAccessException e)
        {
            throw new RecordingException($"{path}: no permission to read this file. Change its permissions, or copy it to a folder of your own.", e);
        }
        catch (FfmpegException e)
        {
            throw new RecordingException($"{path}: {e.Message}", e);
        }
        catch (IOException e) when (e is not UnwritableFileException)
        {
            throw new RecordingException(
                $"{path}: the file can't be read ({e.Message}). Check that the disk is there and that no other program holds the file.", e);
        }
    }
}
