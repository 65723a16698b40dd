using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>
/// Cells that don't go into a bar's beats: a dot too many or too few moves all that stands behind it off the beat. Two or three cells over any
/// bar are meant so, as a triplet over the bar is.
/// </summary>
internal static class CellRules
{
    private const int MeantSo = 3;

    public static void Check(SectionSyntax section, Func<int, Meter> meterOf, DiagnosticBag bag)
    {
        var uneven = section.Voices().SelectMany(section.BarsOf)
            .Where(b => b.Key <= section.BarCount && section.Lines.Contains(b.Value.Line))
            .Select(b => (b.Key, b.Value.Line, b.Value.Bar, Meter: b.Value.Line.MeterAt(b.Key, meterOf)))
            .Where(b => b.Bar.Leaves.Skip(1).Any(l => !l.GoesOn) && !Fits(b.Bar.Cells, b.Meter))
            .OrderBy(b => b.Key)
            .GroupBy(b => (b.Line.Voice.Part, b.Bar.Cells, b.Meter));
        foreach (var alike in uneven)
        {
            var (part, cells, meter) = alike.Key;
            var others = alike.DistinctBy(b => b.Bar.Between).Count() - 1;
            bag.Add(DiagnosticCode.UnevenCells, alike.First().Bar.Between,
                $"{cells} cells don't go into a bar of {meter}, so what stands in them falls beside its beats{More(others, part)}.",
                $"{Even(meter)}: is a . missing, or one too many?{Meant(cells, meter)}");
        }
    }

    private static bool Fits(int cells, Meter meter) =>
        cells <= MeantSo || Divides(cells, meter.BeatsPerBar) || Divides(cells, meter.Upper);

    private static bool Divides(int cells, int beats) => cells % beats == 0 || beats % cells == 0;

    private static string More(int others, SongPart part) =>
        others == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $", and so do {others} more of {part.ToString().ToLowerInvariant()}");

    private static string Even(Meter meter) =>
        meter.IsCompound ? $"{meter.BeatsPerBar} cells are its beats, {meter.Upper} the thirds of them"
            : $"{meter.Upper} cells are its beats, {2 * meter.Upper} half beats";

    private static string Meant(int cells, Meter meter)
    {
        var both = Enumerable.Range(1, meter.BeatsPerBar).Select(n => n * cells).First(n => n % meter.BeatsPerBar == 0);
        return both > BarLineReader.MostCells ? "" : $" Where it is meant so, write it in {both} cells.";
    }
}
