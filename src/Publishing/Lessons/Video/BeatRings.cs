using System.Globalization;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>The bar's felt beats as rings, eight in a row at most; the one that sounds is filled. Before the music they count it in.</summary>
internal static class BeatRings
{
    private const double Room = 640;
    private const int MostInRow = 8;

    /// <returns>Where the lowest ring ends.</returns>
    public static double Draw(Sketch sketch, int count, ScreenMoment moment, double top, double bottom)
    {
        var rows = (count + MostInRow - 1) / MostInRow;
        var across = (count + rows - 1) / rows;
        var radius = Math.Min(Math.Min(58, Room / across * 0.42), (bottom - top) / rows * 0.44);
        var step = Math.Min(Room / across, radius * 2.6);
        var middle = (top + bottom) / 2;
        var lit = moment.IsOver ? -1 : moment.Bar < 0 ? count - moment.BeatsToStart : moment.Beat;
        for (var beat = 0; beat < count; beat++)
        {
            var (row, column) = (beat / across, beat % across);
            var x = Screen.Middle + (column - (across - 1) / 2.0) * step;
            DrawRing(sketch, beat + 1, x, middle + (row - (rows - 1) / 2.0) * radius * 2.3, radius, beat == lit);
        }
        return middle + ((rows - 1) / 2.0 * 2.3 + 1) * radius;
    }

    private static void DrawRing(Sketch sketch, int number, double x, double y, double radius, bool lit)
    {
        sketch.Ring(x, y, radius - 2, 4, lit ? Tint.Now : Tint.Line, lit ? Tint.Now : null);
        var size = Math.Max(26, radius * 0.95);
        sketch.Text(number.ToString(CultureInfo.InvariantCulture), x, y + size * FontBook.CapHeight / 2, Face.Strong, size, lit ? Tint.OnColour
            : Tint.Quiet, Align.Centre);
    }
}
