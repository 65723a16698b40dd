using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Numerals;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>What a rule made of a chord.</summary>
internal sealed record Reading(RomanNumeral Numeral, Origin Origin, ImmutableArray<string> Reasons);

/// <summary>
/// Reads a chord by the first rule that knows it. What leads somewhere comes before what is borrowed, since players hear where a chord goes
/// before they ask where it comes from.
/// </summary>
internal static class ChordReader
{
    private static readonly ImmutableArray<Func<ChordSetting, Reading?>> Rules =
    [
        AugmentedSixthRule.Spelled, BluesRule.InABlues, DiminishedRule.Seventh, KeyRule.Native, AugmentedSixthRule.Heard, AppliedRule.TritoneSubstitute,
        AppliedRule.TwoOf, AppliedRule.FiveOf, DiminishedRule.Triad, BluesRule.AnySeventh, KeyRule.Coloured, BorrowedRule.Neapolitan, BorrowedRule.FromMode,
        BorrowedRule.Mediant,
    ];

    public static ChordInContext Read(ChordSetting setting)
    {
        var reading = Rules.Select(rule => rule(setting)).FirstOrDefault(r => r is not null) ?? Other(setting);
        var function = FunctionRule.Of(setting, reading);
        return new(setting.Chord, setting.Key, reading.Numeral, function, reading.Origin, reading.Reasons);
    }

    private static Reading Other(ChordSetting setting) =>
        new(RomanNumeral.Of(setting.Chord, setting.Key), new(OriginKind.Chromatic),
            [$"{KeyRule.Foreign(setting)} and no other mode on {setting.Key.Tonic} holds them all"]);
}
