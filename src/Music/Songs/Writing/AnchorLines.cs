using Harkbook.Music.Songs.Reading;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Writing;

/// <summary>A section's anchors as a fresh file writes them: up to six a line, those of one standing together.</summary>
internal static class AnchorLines
{
    public static IEnumerable<string> Of(IReadOnlyList<Anchor> anchors)
    {
        for (var i = 0; i < anchors.Count;)
        {
            var standing = anchors[i].Standing;
            var run = anchors.Skip(i).Take(6).TakeWhile(a => a.Standing == standing).ToList();
            yield return $"{"anchors",-10} {string.Join("   ", run.Select(Write))}  {StandingText.Write(standing)}".TrimEnd();
            i += run.Count;
        }
    }

    private static string Write(Anchor anchor) =>
        $"{anchor.Bar}{(anchor.Beat == Beats.Zero ? "" : $" beat {BeatText.Write(anchor.Beat)}")} = {TimeText.Write(anchor.At)}";
}
