using System.Globalization;
using Harkbook.Publishing.Lessons;

namespace Harkbook.App;

/// <summary>Says what a publishing made, what of it was kept, and what it left.</summary>
internal static class PublishReport
{
    public static IEnumerable<string> Lines(IEnumerable<LessonFile> made, IEnumerable<OlderFile> left) =>
        made.Select(f => $"{Output.Shown(f.Path)}  {f.What}{(f.Kept.Length > 0 ? $" ({f.Kept})" : "")}").Concat(left.Select(Left));

    private static string Left(OlderFile file) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Output.Shown(file.Path)}  of an earlier publishing ({file.Written:yyyy-MM-dd}), left as {(file.Count == 1 ? "it was" : $"they were: {file.Count} files")}");
}
