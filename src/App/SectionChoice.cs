using Harkbook.Music.Songs;

namespace Harkbook.App;

/// <summary>Sections as --section names them.</summary>
internal static class SectionChoice
{
    /// <summary>Those of a name, whatever its case; one at least.</summary>
    public static IReadOnlyList<Section> Called(string name, IReadOnlyCollection<Section> among)
    {
        Section[] found = [.. among.Where(s => s.Name.Equals(name, StringComparison.OrdinalIgnoreCase))];
        return found.Length > 0
            ? found
            : throw new UsageException($"--section {name}: the song's sections are {string.Join(", ", among.Select(s => s.Name).Distinct())}.");
    }
}
