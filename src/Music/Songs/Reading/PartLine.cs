using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>A voice of a section: a part, or in a pick block one string of it (0 = lowest; -1 for the parts without strings).</summary>
internal readonly record struct Voice(SongPart Part, int StringIndex = -1);

/// <summary>A line of bars.</summary>
/// <param name="FirstBar">The section's bar (1 = first) that the line starts with.</param>
/// <param name="Fallback">Standings of the pick block that the line belongs to.</param>
internal sealed record PartLine(
    LineSyntax Line, Voice Voice, int FirstBar, ImmutableArray<BarSyntax> Bars, ImmutableArray<StandingEntry> Standings, ImmutableArray<StandingEntry> Fallback)
{
    public int EndBar => FirstBar + Bars.Length;

    public Standing StandingOf(Leaf leaf, int bar, Beats start) =>
        leaf.Heard ?? Placed(Standings, bar, start) ?? Placed(Fallback, bar, start) ?? Whole(Standings) ?? Whole(Fallback) ?? Standing.Decided;

    private static Standing? Placed(ImmutableArray<StandingEntry> entries, int bar, Beats start) =>
        (entries.LastOrDefault(e => e.Bar == bar && e.Beat == start) ?? entries.LastOrDefault(e => e.Bar == bar && e.Beat is null))?.Standing;

    private static Standing? Whole(ImmutableArray<StandingEntry> entries) => entries.FirstOrDefault(e => e.Bar is null)?.Standing;
}
