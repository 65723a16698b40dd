using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>A voice of a section: a part, or in a pick block one string of it (0 = lowest; -1 for the parts without strings).</summary>
internal readonly record struct Voice(SongPart Part, int StringIndex = -1)
{
    /// <summary>Stands for whichever string is the lowest that the shape of the moment sounds.</summary>
    public const int BassIndex = int.MaxValue;
}

/// <summary>A line of bars, or one that has a pattern played.</summary>
/// <param name="FirstBar">The section's bar (1 = first) that the line starts with.</param>
/// <param name="Fallback">Standings of the pick block that the line belongs to.</param>
internal sealed record PartLine(
    LineSyntax Line, Voice Voice, int FirstBar, ImmutableArray<BarSyntax> Bars, ImmutableArray<StandingEntry> Standings, ImmutableArray<StandingEntry> Fallback)
{
    /// <summary>Whether the bars are a pattern: played over and over in every bar from the first on that no other line gives.</summary>
    public bool Repeats { get; init; }

    /// <summary>The meter that a named pattern is written for; null where the bars are written for the meter that they stand in.</summary>
    public Meter? WrittenFor { get; init; }

    public int EndBar => FirstBar + Bars.Length;

    public BarSyntax BarAt(int bar) => Bars[(bar - FirstBar) % Bars.Length];

    /// <summary>The meter whose beats the cells of a bar divide.</summary>
    public Meter MeterAt(int bar, Func<int, Meter> meterOf) => WrittenFor ?? meterOf(Repeats ? FirstBar : bar);

    public Standing StandingOf(Leaf leaf, int bar, Beats start) => leaf.Heard ?? StandingAt(bar, start);

    /// <summary>The standing of what starts at a beat of a bar and has no mark of its own.</summary>
    public Standing StandingAt(int bar, Beats start) =>
        Placed(Standings, bar, start) ?? Placed(Fallback, bar, start) ?? Whole(Standings) ?? Whole(Fallback) ?? Standing.Decided;

    private static Standing? Placed(ImmutableArray<StandingEntry> entries, int bar, Beats start) =>
        (entries.LastOrDefault(e => e.Bar == bar && e.Beat == start) ?? entries.LastOrDefault(e => e.Bar == bar && e.Beat is null))?.Standing;

    private static Standing? Whole(ImmutableArray<StandingEntry> entries) => entries.FirstOrDefault(e => e.Bar is null)?.Standing;
}
