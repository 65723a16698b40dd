namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>A folder for one test's files, removed after it.</summary>
public sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("harkbook-test-").FullName;

    public string At(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
