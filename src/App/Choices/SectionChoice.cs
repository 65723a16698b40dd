using Harkbook.App.Messages;
using Harkbook.Music.Songs;

namespace Harkbook.App.Choices;

/// <summary>Sections as --section names them: in full or near enough.</summary>
internal static class SectionChoice
{
    /// <summary>Those of the one name that can be meant; what was taken for it is said.</summary>
    public static IReadOnlyList<Section> Called(string given, IReadOnlyCollection<Section> among)
    {
        var names = SectionNames.Meant(given, among.Select(s => s.Name));
        if (names is not [var name])
            throw new UsageException(names.IsEmpty
                ? $"--section {given}: the song's sections are {string.Join(", ", among.Select(s => s.Name).Distinct())}."
                : $"--section {given}: this may be {string.Join(" or ", names)}; give one of them.");
        if (!name.Equals(given.Trim(), StringComparison.OrdinalIgnoreCase))
            Console.Error.WriteLine($"harkbook: --section {given} is taken for {name}.");
        return [.. among.Where(s => s.Name == name)];
    }
}
