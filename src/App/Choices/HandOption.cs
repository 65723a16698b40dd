using System.CommandLine;
using System.Globalization;
using Harkbook.App.Messages;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Units;

namespace Harkbook.App.Choices;

/// <summary>How far the player's hand reaches.</summary>
internal static class HandOption
{
    public static Option<double?> Create() => new("--hand")
    {
        Description = "How far apart the tips of your index and little finger reach on the strings without strain, in millimetres, "
            + Text($"{Hand.Smallest.Millimetres:0} to {Hand.Largest.Millimetres:0}; without it, {Hand.Usual.LongestReach.Millimetres:0}. ")
            + "Give less for a small hand or one that hurts: no stretch is worth pain",
        HelpName = "MM",
    };

    /// <summary>Null where nobody said.</summary>
    public static Length? Read(double? given) => given switch
    {
        null => null,
        { } reach when reach >= Hand.Smallest.Millimetres && reach <= Hand.Largest.Millimetres => Length.FromMillimetres(reach),
        { } reach => throw new UsageException(Text($"--hand {reach}: give {Hand.Smallest.Millimetres:0} to {Hand.Largest.Millimetres:0} millimetres.")),
    };

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
