using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Music.Instruments.Hands;

/// <summary>A string that starts partway up the neck, as a five-string banjo's: it has no frets below that one.</summary>
/// <param name="Number">As the trade counts, from the high side.</param>
public readonly record struct ShortString(int Number, int FromFret);

/// <summary>A fretted instrument as it usually is. Read from data/fretted-instruments.tsv; its tunings are in <see cref="TuningCatalogue"/>.</summary>
/// <param name="Frets">On the neck, counted from the nut.</param>
/// <param name="Scale">From nut to bridge.</param>
/// <param name="FretsAFinger">Frets that each finger has to itself low on the neck: 1, or 2 where it is fingered as a violin is.</param>
/// <param name="IsBassFree">Whether chords are played with whichever note lowest (common practice on small instruments).</param>
public sealed record FrettedInstrument(string Name, ImmutableArray<string> OtherNames, int Frets, Length Scale, ImmutableArray<ShortString> ShortStrings,
    bool IsBassFree, int FretsAFinger, string Source)
{
    public static ImmutableArray<FrettedInstrument> All { get; } = [.. PublishedTable.Rows("fretted-instruments.tsv").Select(Row)];

    /// <summary>An instrument by name or other name, in any case; null when the table has none.</summary>
    public static FrettedInstrument? Find(string name) => All.FirstOrDefault(i => i.Names.Contains(name.Trim(), StringComparer.OrdinalIgnoreCase));

    /// <summary>Instruments from the text of a table written as data/fretted-instruments.tsv is.</summary>
    public static ImmutableArray<FrettedInstrument> ReadTable(string text) => [.. PublishedTable.RowsOf(new StringReader(text)).Select(Row)];

    public IEnumerable<string> Names => OtherNames.Prepend(Name);

    /// <summary>A usual hand on this neck.</summary>
    public Hand Hand => Hand.Usual with { Scale = Scale, FretsAFinger = FretsAFinger };

    /// <summary>The instrument that has a tuning, the guitar before others; null for an uncommon tuning.</summary>
    public static FrettedInstrument? With(Tuning tuning) => TuningCatalogue.EntriesFor(tuning) is [var entry, ..] ? Find(entry.Instrument) : null;

    private static FrettedInstrument Row(string[] cells) => new(
        cells[0],
        [.. cells[1].Split(';', StringSplitOptions.RemoveEmptyEntries)],
        Number(cells[2]),
        Length.FromMillimetres(Number(cells[3])),
        [.. cells[4].Split(';', StringSplitOptions.RemoveEmptyEntries).Select(s => s.Split(':')).Select(s => new ShortString(Number(s[0]), Number(s[1])))],
        cells[5] == "any",
        Number(cells[6]),
        cells[7]);

    private static int Number(string text) => int.Parse(text, NumberStyles.None, CultureInfo.InvariantCulture);
}
