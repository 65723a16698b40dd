using System.Collections.Immutable;
using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Music.Analysis.Retuning;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.App.Commands;

internal static class RetuneCommand
{
    public static Command Create()
    {
        var from = new Argument<string>("from") { Description = "The tuning now, as standard, DADGAD or \"D2 A2 D3 G3 B3 E4\"" };
        var to = new Argument<string>("to") { Description = "The tuning wanted, in the same words" };
        var strings = new Option<string?>("--strings")
        {
            Description = "The strings from the thin one, in thousandths of an inch, w for wound, as \"12 16 24w 32w 42w 53w\"; a wound one's unit weight may "
                + "follow, as 24w=0.00011 (pounds an inch, from its maker)",
            HelpName = "SET",
        };
        var scale = new Option<double?>("--scale") { Description = "From nut to bridge in mm; without it, what is usual on the instrument", HelpName = "MM" };
        var json = Options.Json();
        var command = new Command("retune", "From one tuning to another, string by string, with what it does to the tension and when to be careful")
        {
            from, to, strings, scale, json,
        };
        command.SetAction(parsed =>
        {
            var (now, wanted) = (Options.ReadInstrument(parsed.GetRequiredValue(from)), Options.ReadInstrument(parsed.GetRequiredValue(to)));
            if (now.Tuning.Count != wanted.Tuning.Count)
                throw new UsageException($"{parsed.GetRequiredValue(from)} has {now.Tuning.Count} strings and {parsed.GetRequiredValue(to)} "
                    + $"{wanted.Tuning.Count}; give two tunings of one instrument.");
            var neck = ReadScale(parsed.GetValue(scale)) ?? now.Instrument.Scale;
            var change = TuningChange.Between(now.Tuning, wanted.Tuning, ReadStrings(parsed.GetValue(strings), now.Tuning.Count), neck);
            Console.Out.Write(parsed.GetValue(json) ? RetuneReport.Json(change, now.Instrument, neck) : RetuneReport.Write(change, now.Instrument, neck));
            return 0;
        });
        return command;
    }

    private static Length? ReadScale(double? millimetres) =>
        millimetres is null ? null
        : millimetres is >= 200 and <= 1300 ? Length.FromMillimetres(millimetres.Value)
        : throw new UsageException(FormattableString.Invariant($"--scale {millimetres}: give 200 to 1300 mm, from nut to bridge."));

    private static ImmutableArray<StringWeight?> ReadStrings(string? text, int count)
    {
        if (text is null)
            return [];
        var weights = StringWords.Read(text)
            ?? throw new UsageException($"--strings {text}: give each string's thickness in thousandths of an inch from the thin one, w for wound, as in \"12 "
                + "16 24w 32w 42w 53w\"; a unit weight may follow, as in 24w=0.00011.");
        return weights.Length == count
            ? weights
            : throw new UsageException($"--strings {text}: {weights.Length} strings for a tuning of {count}; give one thickness a string.");
    }
}
