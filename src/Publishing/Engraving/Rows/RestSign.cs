using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>The sign of a rest (Unicode's musical symbol quarter rest), here for silence of any length: what came before ends.</summary>
internal static class RestSign
{
    private const string Sign = "\U0001D13D";

    /// <param name="height">In points, about that of capitals beside it.</param>
    public static void Draw(Sketch sketch, double left, double top, double height)
    {
        var ink = FontBook.Shape(Sign, Face.Music).Ink;
        var size = height / ink.Height;
        sketch.Text(Sign, left - ink.Left * size, top - ink.Top * size, Face.Music, size, Tint.Quiet, says: "");
    }

    public static double Width(double height)
    {
        var ink = FontBook.Shape(Sign, Face.Music).Ink;
        return ink.Width * height / ink.Height;
    }
}
