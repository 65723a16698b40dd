using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Shapes;

/// <summary>
/// The shapes that beginners learn, open ones and those that a barre moves up the neck, from data/common-shapes.tsv: each in its instrument's
/// first tuning.
/// </summary>
public static class CommonShapes
{
    private static readonly ILookup<string, Shape> All = PublishedTable.Rows("common-shapes.tsv").ToLookup(row => row[0], row => Shape.Parse(row[2]));

    /// <summary>Whether a shape is one of them, where it is or, without open strings, at another fret; under a capo over all strings as without.</summary>
    public static bool Has(Shape shape, Tuning tuning, Capo capo) =>
        !capo.IsPartial && FirstTunings(tuning).Any(instrument => All[instrument].Any(common => common.Frets.SequenceEqual(shape.Frets)
            || IsMoved(common, shape)));

    /// <summary>All of them in a tuning, with those that a barre moves up to a fret; frets from the capo. None under a capo over some strings.</summary>
    /// <param name="tuning">As it is tuned.</param>
    /// <param name="capo">Over all strings or none.</param>
    /// <param name="highest">The highest fret that may be pressed.</param>
    public static IEnumerable<Shape> On(Tuning tuning, Capo capo, int highest) =>
        capo.IsPartial ? [] : FirstTunings(tuning).SelectMany(instrument => All[instrument]).SelectMany(common => Moved(common, highest));

    private static IEnumerable<Shape> Moved(Shape common, int highest)
    {
        var frets = common.Frets;
        return frets.Contains(0) ? [common] : Enumerable.Range(1 - common.FirstFret!.Value, Math.Max(0, highest - frets.Max()!.Value + common.FirstFret.Value))
            .Select(by => Shape.Of([.. frets.Select(f => f + by)]));
    }

    private static IEnumerable<string> FirstTunings(Tuning tuning) =>
        TuningCatalogue.EntriesFor(tuning).Where(t => TuningCatalogue.All.First(other => other.Instrument == t.Instrument) == t).Select(t => t.Instrument);

    private static bool IsMoved(Shape common, Shape shape)
    {
        var by = shape.FirstFret - common.FirstFret;
        return by is not null && !common.Frets.Contains(0) && common.Frets.Length == shape.Frets.Length
            && common.Frets.Zip(shape.Frets).All(f => f.First + by == f.Second);
    }
}
