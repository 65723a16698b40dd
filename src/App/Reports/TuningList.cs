using System.Text;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.App.Reports;

/// <summary>Tunings by name, an instrument under the other.</summary>
internal static class TuningList
{
    public static string Write(IReadOnlyList<NamedTuning> tunings)
    {
        var text = new StringBuilder();
        var name = tunings.Max(t => Names(t).Length);
        foreach (var instrument in tunings.GroupBy(t => t.Instrument))
        {
            text.AppendLine(string.Join(", ", FrettedInstrument.Find(instrument.Key)?.Names ?? [instrument.Key]));
            foreach (var tuning in instrument)
                text.AppendLine($"  {Names(tuning).PadRight(name)}  {tuning.Tuning}");
        }
        return text.Append("\nA song file and --tuning take a guitar's by name alone (open D), others with their instrument (ukulele low G); an instrument "
            + "alone is its first.\n").ToString();
    }

    private static string Names(NamedTuning tuning) => string.Join(", ", tuning.OtherNames.Prepend(tuning.Name));
}
