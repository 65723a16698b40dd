using System.Globalization;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Bench.Planted;

/// <summary>
/// How many errors of each kind were found: a row for each kind, a mark for each group of transcriptions, from nothing at the left to all at the right.
/// </summary>
internal static class PlantedPlot
{
    private const double Left = 250;
    private const double Width = 380;
    private const double Row = 19;
    private const double Top = 52;

    private static readonly Tint[] tints = [Tint.Hand, Tint.Draw, Tint.Blow, Tint.Voice, Tint.Ink, Tint.Quiet];

    public static Drawing Draw(IReadOnlyList<GroupScore> groups, double alarmsAMinute)
    {
        var kinds = groups.SelectMany(g => g.Kinds.Select(k => k.Kind)).Distinct().Order(StringComparer.Ordinal).ToArray();
        var (sketch, bottom) = (new Sketch(), Top + kinds.Length * Row);
        sketch.Text(string.Create(CultureInfo.InvariantCulture, $"Planted errors found at {alarmsAMinute:0.#} false alarms a minute"), 12, 18, Face.Strong, 11);
        Legend(sketch, groups);
        foreach (var share in (double[])[0, 0.25, 0.5, 0.75, 1])
        {
            sketch.Line(Left + share * Width, Top - 6, Left + share * Width, bottom, 0.5, Tint.Faint);
            sketch.Text(string.Create(CultureInfo.InvariantCulture, $"{share * 100:0}%"), Left + share * Width, bottom + 13, Face.Digits, 7.5,
                Tint.Quiet, Align.Centre);
        }
        for (var k = 0; k < kinds.Length; k++)
            Kind(sketch, groups, kinds[k], Top + k * Row + 8);
        return sketch.ToDrawing(Left + Width + 30, bottom + 24, "how many planted errors the check finds, for each kind of error");
    }

    private static void Legend(Sketch sketch, IReadOnlyList<GroupScore> groups)
    {
        var x = 12.0;
        for (var g = 0; g < groups.Count; g++)
        {
            sketch.Dot(x + 3, 33, 3.2, tints[g % tints.Length]);
            x += 12 + sketch.Text(groups[g].Group, x + 10, 36, Face.Text, 9) + 14;
        }
    }

    /// <summary>Groups with the same share stand a little above one another.</summary>
    private static void Kind(Sketch sketch, IReadOnlyList<GroupScore> groups, string kind, double y)
    {
        sketch.Text(kind, Left - 12, y + 3, Face.Text, 9, Tint.Ink, Align.Right);
        sketch.Line(Left, y, Left + Width, y, 0.4, Tint.Faint);
        var shown = groups.Select((g, i) => (Score: g.Kinds.FirstOrDefault(k => k.Kind == kind), Tint: tints[i % tints.Length]))
            .Where(s => s.Score is not null).ToArray();
        for (var i = 0; i < shown.Length; i++)
            sketch.Dot(Left + shown[i].Score!.Found * Width, y + (i - (shown.Length - 1) / 2.0) * 2.6, 3, shown[i].Tint);
    }
}
