using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Shapes;

/// <summary>
/// The shapes that beginners learn, open ones and those that a barre moves up the neck, from data/common-shapes.tsv: each in its instrument's
/// first tuning.
/// </summary>
public static class CommonShapes
{
    /// <summary>By instrument, where they are and, without open strings, at every fret of the longest neck.</summary>
    private static readonly ILookup<string, Shape> All = PublishedTable.Rows("common-shapes.tsv")
        .SelectMany(row => Everywhere(Shape.Parse(row[2])).Select(shape => (Instrument: row[0], Shape: shape))).ToLookup(s => s.Instrument, s => s.Shape);

    /// <summary>Whether a shape is one of them, where it is or, without open strings, at another fret; under a capo over all strings as without.</summary>
    public static bool Has(Shape shape, Tuning tuning, Capo capo) => On(tuning, capo, Fretboard.MostFrets).Contains(shape.WithoutFingers());

    /// <summary>All of them in a tuning, with those that a barre moves up to a fret; frets from the capo. None under a capo over some strings.</summary>
    /// <param name="tuning">As it is tuned.</param>
    /// <param name="capo">Over all strings or none.</param>
    /// <param name="highest">The highest fret to which one may be moved; open ones stay where they are.</param>
    public static IEnumerable<Shape> On(Tuning tuning, Capo capo, int highest) =>
        capo.IsPartial ? [] : FirstTunings(tuning).SelectMany(instrument => All[instrument]).Where(s => s.Frets.Contains(0) || s.LastFret <= highest);

    private static IEnumerable<Shape> Everywhere(Shape common)
    {
        var frets = common.Frets;
        return frets.Contains(0) ? [common]
            : Enumerable.Range(1 - common.FirstFret!.Value, Fretboard.MostFrets - common.Span).Select(by => Shape.Of([.. frets.Select(f => f + by)]));
    }

    private static IEnumerable<string> FirstTunings(Tuning tuning) =>
        TuningCatalogue.EntriesFor(tuning).Where(t => TuningCatalogue.All.First(other => other.Instrument == t.Instrument) == t).Select(t => t.Instrument);
}
