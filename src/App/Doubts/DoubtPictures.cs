using System.Collections.Immutable;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Publishing.Drawings;
using Harkbook.Units;

namespace Harkbook.App.Doubts;

/// <summary>Writes pictures of a check's doubtful places into a folder, each as SVG and PNG.</summary>
internal static class DoubtPictures
{
    private const int Most = 24;
    private const double PixelsAPoint = 2;

    /// <returns>The pictures' paths, the most doubtful place first.</returns>
    public static IReadOnlyList<string> Write(string folder, Hearing hearing, CheckResult result, IReadOnlyCollection<ClaimedSound> claims,
        ImmutableArray<Seconds> beats)
    {
        var paths = new List<string>();
        foreach (var picture in DoubtPicture.Of(result, beats, hearing.Recording.Length, Most))
        {
            var drawing = DoubtDrawing.Draw(hearing, picture, claims, result.Findings);
            var path = Path.Combine(folder, picture.Name);
            File.WriteAllText(path + ".svg", SvgWriter.Write(drawing, Palette.Paper));
            using (var png = File.Create(path + ".png"))
                PngWriter.Write(drawing, png, Palette.Paper, PixelsAPoint);
            paths.Add(path + ".svg");
        }
        return paths;
    }
}
