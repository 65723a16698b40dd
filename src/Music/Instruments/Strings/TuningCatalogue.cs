using System.Collections.Immutable;

namespace Harkbook.Music.Instruments.Strings;

/// <summary>A tuning under the name that players use for it on one instrument ("guitar", "bass", "ukulele" …).</summary>
/// <param name="Source">Where the row comes from, in the marks that data/tunings.tsv explains.</param>
public sealed record NamedTuning(string Instrument, string Name, ImmutableArray<string> OtherNames, Tuning Tuning, string Source);

/// <summary>
/// Tunings in common use, read from data/tunings.tsv. A <see cref="Tuning"/> itself has no name; this gives it one.
/// Tunings are matched by sounding pitch, so F# and Gb strings are the same.
/// </summary>
public static class TuningCatalogue
{
    public const string Guitar = "guitar";

    public static ImmutableArray<NamedTuning> All { get; } = [.. PublishedTable.Rows("tunings.tsv").Select(Row)];

    /// <summary>Every instrument that has a tuning here, the guitar first.</summary>
    public static ImmutableArray<string> Instruments { get; } = [.. All.Select(t => t.Instrument).Distinct()];

    /// <summary>A tuning by name or other name, in any case; null when the catalogue has none of that name.</summary>
    public static NamedTuning? Find(string name, string instrument = Guitar) =>
        All.FirstOrDefault(t => t.Instrument == instrument && t.OtherNames.Prepend(t.Name).Contains(name.Trim(), StringComparer.OrdinalIgnoreCase));

    /// <summary>Every entry that sounds like a tuning, on whichever instrument; empty for an uncommon one.</summary>
    public static ImmutableArray<NamedTuning> EntriesFor(Tuning tuning) => [.. All.Where(t => SameSound(t.Tuning, tuning))];

    /// <summary>The common name of a tuning on an instrument; null when it has none.</summary>
    public static string? NameOf(Tuning tuning, string instrument = Guitar) =>
        EntriesFor(tuning).FirstOrDefault(t => t.Instrument == instrument)?.Name;

    /// <summary>
    /// What a player would call a tuning: its name, else a named one moved ("open G, 3 semitones down"), else its notes.
    /// </summary>
    public static string Describe(Tuning tuning, string instrument = Guitar) =>
        NameOf(tuning, instrument) ?? MovedName(tuning, instrument) ?? tuning.ToString();

    /// <summary>As <see cref="Describe"/>, for whichever instrument has the tuning: "open D", "ukulele standard".</summary>
    public static string DescribeOnAny(Tuning tuning) =>
        EntriesFor(tuning) is [{ Instrument: not Guitar } first, ..] ? $"{first.Instrument} {first.Name}" : Describe(tuning);

    private static string? MovedName(Tuning tuning, string instrument)
    {
        foreach (var named in All.Where(t => t.Instrument == instrument && t.Tuning.Count == tuning.Count))
        {
            var change = tuning.ChangeFrom(named.Tuning);
            if (change.All(c => c == change[0]) && Math.Abs(change[0]) < 12)
                return $"{named.Name}, {Math.Abs(change[0])} {(Math.Abs(change[0]) == 1 ? "semitone" : "semitones")} {(change[0] < 0 ? "down" : "up")}";
        }
        return null;
    }

    private static bool SameSound(Tuning a, Tuning b) => a.Count == b.Count && a.ChangeFrom(b).All(c => c == 0);

    private static NamedTuning Row(string[] cells) =>
        new(cells[0], cells[1], [.. cells[2].Split(';', StringSplitOptions.RemoveEmptyEntries)], Tuning.Parse(cells[3]), cells[4]);
}
