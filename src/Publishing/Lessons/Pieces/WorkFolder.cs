namespace Harkbook.Publishing.Lessons.Pieces;

/// <summary>A temporary folder that goes away with what is in it.</summary>
internal sealed class WorkFolder : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("harkbook-");

    public string Path => folder.FullName;

    public string At(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => folder.Delete(recursive: true);
}
