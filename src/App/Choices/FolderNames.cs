using Harkbook.Publishing.Lessons;

namespace Harkbook.App.Choices;

/// <summary>What a folder is called that holds some of a song, so that one doesn't write over another.</summary>
internal static class FolderNames
{
    /// <summary>"bars-5-8", "bar-5".</summary>
    public static string Bars(int first, int last) => first == last ? $"bar-{first}" : $"bars-{first}-{last}";

    /// <summary>"D-to-A7".</summary>
    public static string Change(string from, string to) => $"{ChordFiles.NameOf(from)}-to-{ChordFiles.NameOf(to)}";
}
