using System.Globalization;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Bench.Sureness;

/// <summary>
/// How often estimates were right against how sure they were said to be, a panel for each kind, a row of bars for each
/// material. A bar spans the sureness that it gathers and stands at the share that was right; below it how many estimates it
/// rests on. On the slanted line, sureness is what it says.
/// </summary>
internal static class SurenessPlot
{
    private const double Side = 190;
    private const double Gap = 46;
    private const double Top = 30;

    private static readonly Tint[] tints = [Tint.Hand, Tint.Draw, Tint.Blow, Tint.Voice];

    /// <param name="materials">A name and what was judged on it, four at most.</param>
    public static Drawing Draw(IReadOnlyList<(string Name, Judged[] Rows)> materials)
    {
        var kinds = materials.SelectMany(m => m.Rows.Select(r => r.Kind)).Distinct().ToArray();
        var sketch = new Sketch();
        for (var i = 0; i < kinds.Length; i++)
            Panel(sketch, kinds[i], materials, 34 + i % 3 * (Side + Gap), Top + i / 3 * (Side + 2 * Gap));
        var bottom = Top + (kinds.Length + 2) / 3 * (Side + 2 * Gap) - Gap + 10;
        for (var m = 0; m < materials.Count; m++)
        {
            sketch.Fill(Box.At(34, bottom + 14 * m - 4, 16, 3), tints[m]);
            sketch.Text(materials[m].Name, 56, bottom + 14 * m, Face.Text, 9);
        }
        return sketch.ToDrawing(40 + 3 * (Side + Gap), bottom + 14 * materials.Count + 4, "how often estimates were right against how sure they were said to be");
    }

    private static void Panel(Sketch sketch, string kind, IReadOnlyList<(string Name, Judged[] Rows)> materials, double left, double top)
    {
        sketch.Text(kind, left, top - 8, Face.Strong, 11);
        foreach (var step in (double[])[0, 0.5, 1])
        {
            var (x, y) = (left + step * Side, top + (1 - step) * Side);
            sketch.Line(left, y, left + Side, y, 0.5, Tint.Faint);
            sketch.Text(Percent(step), left - 4, y + 3, Face.Digits, 7, Tint.Quiet, Align.Right);
            sketch.Text(Percent(step), x, top + Side + 11, Face.Digits, 7, Tint.Quiet, Align.Centre);
        }
        sketch.Line(left, top + Side, left + Side, top, 0.8, Tint.Line);
        sketch.Text("said to be sure →", left + Side / 2, top + Side + 22, Face.Text, 7.5, Tint.Quiet, Align.Centre);
        for (var m = 0; m < materials.Count; m++)
            foreach (var row in materials[m].Rows.Where(r => r.Kind == kind))
                Bar(sketch, row, left, top, tints[m], m);
    }

    private static void Bar(Sketch sketch, Judged row, double left, double top, Tint tint, int material)
    {
        var (x, width, y) = (left + row.From * Side + 1, (row.To - row.From) * Side - 2, top + (1 - row.Right) * Side + 1.6 * material);
        sketch.Fill(Box.At(x, y - 1.5, width, 3), tint);
        sketch.Text(row.Count.ToString(CultureInfo.InvariantCulture), x + width / 2, y + (material % 2 == 0 ? -3 : 8), Face.Digits, 6, tint, Align.Centre);
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0}%");
}
