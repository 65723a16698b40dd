using System.Collections.Immutable;

namespace Harkbook.Publishing.Lessons;

/// <summary>A file, or several of one kind, that an earlier publishing made and the last one left as they were.</summary>
/// <param name="Written">When the youngest of them was written, by the local clock.</param>
public sealed record OlderFile(string Path, int Count, DateTime Written);

/// <summary>Finds what stands in a lesson's folder beside what was just published.</summary>
public static class OlderFiles
{
    private static readonly string[] Names = ["sheet.pdf", "sheet-*.png", "diagrams/*.svg", "diagrams/*.png", "tab.svg", "why.pdf", "chapters.vtt",
        "chapters.txt", "play-along.html", "play-along.mp4"];

    public static ImmutableArray<OlderFile> In(string folder, IEnumerable<LessonFile> written)
    {
        var young = written.Select(f => Path.GetFullPath(f.Path)).ToHashSet();
        return [.. Names.Select(name => Among(folder, name, young)).OfType<OlderFile>()];
    }

    private static OlderFile? Among(string folder, string name, HashSet<string> young)
    {
        var path = Path.Combine(folder, name);
        var place = Path.GetDirectoryName(path)!;
        string[] old = Directory.Exists(place) ? [.. Directory.GetFiles(place, Path.GetFileName(path)).Where(f => !young.Contains(Path.GetFullPath(f)))] : [];
        return old.Length == 0 ? null : new(old.Length == 1 ? old[0] : path, old.Length, old.Max(File.GetLastWriteTime));
    }
}
