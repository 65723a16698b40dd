using System.Globalization;
using Harkbook.App.Messages;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Lessons;

namespace Harkbook.App.Reports;

/// <summary>Says what a publishing made, what of it was kept, and what it left.</summary>
internal static class PublishReport
{
    public static IEnumerable<string> Lines(IEnumerable<LessonFile> made, IEnumerable<OlderFile> left) =>
        made.Select(f => $"{Output.Shown(f.Path)}  {f.What}{(f.Kept.Length > 0 ? $" ({f.Kept})" : "")}").Concat(left.Select(Left));

    /// <summary>Parts that were asked for by name and can't be made of the song's bars.</summary>
    public static IEnumerable<string> Lacking(Song song, PublishOptions options)
    {
        var bars = song.Bars.Where(b => (options.Only ?? Passage.Whole(song)).Holds(b)).ToArray();
        if (options.Parts.HasFlag(LessonParts.Tab) && bars.All(b => b.Picked.IsEmpty))
            yield return "no picked notes, so no tab";
        if (options.Parts.HasFlag(LessonParts.Diagrams) && song.Shapes.IsEmpty)
            yield return "no shapes, so no diagrams";
    }

    private static string Left(OlderFile file) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Output.Shown(file.Path)}  of an earlier publishing ({file.Written:yyyy-MM-dd}), left as "
            + $"{(file.Count == 1 ? "it was" : $"they were: {file.Count} files")}");
}
