using System.Security.Cryptography;
using Harkbook.Audio.Tests.Recordings;

namespace Harkbook.App.Tests.Errors;

/// <summary>A folder to run the program in, with what a case needs, and its own folders for temporary files and what was heard.</summary>
internal sealed class Scene : IDisposable
{
    private readonly string around = Directory.CreateTempSubdirectory("harkbook-errors-").FullName;

    public Scene()
    {
        foreach (var folder in new[] { Root, Cache, Temporary })
            Directory.CreateDirectory(folder);
    }

    /// <summary>Where the program runs and its results go.</summary>
    public string Root => Path.Combine(around, "work");

    public string Cache => Path.Combine(around, "cache");

    public string Temporary => Path.Combine(around, "temporary");

    public bool WithoutFfmpeg { get; set; }

    /// <summary>Every file and folder under <see cref="Root"/> with its content's hash, and whatever is left of temporary files.</summary>
    public string[] Contents =>
    [
        .. Directory.EnumerateFileSystemEntries(Root, "*", SearchOption.AllDirectories)
            .Concat(Directory.EnumerateFileSystemEntries(Temporary, "*", SearchOption.AllDirectories))
            .Order(StringComparer.Ordinal)
            .Select(path => $"{Path.GetRelativePath(around, path)} {Fingerprint(path)}"),
    ];

    public string PathOf(string name) => Path.Combine(Root, name);

    public Scene File(string name, byte[] content)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(PathOf(name))!);
        System.IO.File.WriteAllBytes(PathOf(name), content);
        return this;
    }

    public Scene File(string name, string text) => File(name, System.Text.Encoding.UTF8.GetBytes(text));

    /// <summary>A recording that can be listened to: some seconds of A4.</summary>
    public Scene Take(double seconds = 2, string name = "take.wav") => File(name, Bytes.Wave(8000, 1, 16, 1, Bytes.Tone16(8000, seconds)));

    /// <summary>A song of the recording, in a folder of its own.</summary>
    public Scene Song(int bars = 1) =>
        File("song/song.hark", "title Far\nrecording ../take.wav\ntempo 120\nsection A\nanchors 1 = 0:00\nchords "
            + $"|{string.Concat(Enumerable.Repeat(" A . D . |", bars))}\n");

    public void Dispose() => Directory.Delete(around, recursive: true);

    private static string Fingerprint(string path)
    {
        var file = new FileInfo(path);
        // Hours of sound that are only promised, in a file with a hole, needn't be read through.
        return !file.Exists ? "" : file.Length > 10_000_000 ? $"{file.Length}" : Convert.ToHexString(SHA256.HashData(System.IO.File.ReadAllBytes(path)));
    }
}
