namespace Harkbook.Audio.Tests.Recordings;

/// <summary>A folder for one test, deleted with all it holds.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("harkbook-audio-");

    public string Root => folder.FullName;

    public string File(string name) => Path.Combine(Root, name);

    public string File(string name, byte[] content)
    {
        System.IO.File.WriteAllBytes(File(name), content);
        return File(name);
    }

    public string[] Names => [.. folder.EnumerateFileSystemInfos().Select(f => f.Name)];

    public void Dispose() => folder.Delete(recursive: true);
}
