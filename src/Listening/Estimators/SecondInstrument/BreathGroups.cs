using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Notes that sound together, which a harmonica gives on one breath from neighbouring holes.</summary>
internal static class BreathGroups
{
    private const double Together = 0.09;

    public static List<HeardLineNote[]> Of(ImmutableArray<HeardLineNote> notes)
    {
        var groups = new List<HeardLineNote[]>();
        foreach (var note in notes)
        {
            if (groups.Count > 0 && groups[^1] is var last && (note.Onset - last[0].Onset).Value <= Together
                && Overlap(last[0], note) > 0.5 * Math.Min((note.End - note.Onset).Value, (last[0].End - last[0].Onset).Value))
                groups[^1] = [.. last, note];
            else
                groups.Add([note]);
        }
        return groups;
    }

    /// <summary>Every way to sound all the notes of a group at once: plain, one breath, neighbouring holes, in the order of the notes.</summary>
    public static List<HarpNote[]> OnOneBreath(Harmonica harp, HeardLineNote[] group)
    {
        var ways = new List<HarpNote[]>();
        foreach (var breath in Enum.GetValues<Breath>())
        {
            var holes = group.Select(n => harp.NotesFor(n.Midi).Where(h => h.Breath == breath && h.Bend == 0).Cast<HarpNote?>().FirstOrDefault()).ToArray();
            if (holes.Any(h => h is null))
                continue;
            var span = holes.Max(h => h!.Value.Hole) - holes.Min(h => h!.Value.Hole);
            if (span <= holes.Length)
                ways.Add([.. holes.Select(h => h!.Value)]);
        }
        return ways;
    }

    private static double Overlap(HeardLineNote a, HeardLineNote b) => Math.Min(a.End.Value, b.End.Value) - Math.Max(a.Onset.Value, b.Onset.Value);
}
