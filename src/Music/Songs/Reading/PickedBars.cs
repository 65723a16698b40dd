using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Finds what each string plays, bar by bar: its own lines, and those of the bass where the shape of the moment has it on that string.</summary>
internal sealed class PickedBars(SectionSyntax section, Func<int, Meter> meterOf, Func<Leaf, int, Beats, int?> bassAt)
{
    public SortedDictionary<int, Dictionary<int, ImmutableArray<PlacedLeaf>>> ByString()
    {
        var strings = new SortedDictionary<int, Dictionary<int, ImmutableArray<PlacedLeaf>>>();
        foreach (var voice in section.Voices().Where(v => v.Part == SongPart.Pick && v.StringIndex != Voice.BassIndex))
            strings[voice.StringIndex] = Placed(section, voice, meterOf);
        var last = (int?)null;
        var bass = Placed(section, new(SongPart.Pick, Voice.BassIndex), meterOf).Where(b => b.Key <= section.BarCount).OrderBy(b => b.Key).ToList();
        foreach (var (bar, leaf) in bass.SelectMany(b => b.Value.Select(leaf => (b.Key, leaf))))
        {
            last = leaf.Leaf.Silences ? last : bassAt(leaf.Leaf, bar, leaf.Start) ?? last;
            if (last is not { } index)
                continue;
            strings.TryAdd(index, bass.ToDictionary(b => b.Key, _ => ImmutableArray<PlacedLeaf>.Empty));
            Put(strings[index], bar, leaf);
        }
        return strings;
    }

    /// <summary>A voice's signs by bar; those of a pattern that lie past the end of a shorter bar are left out.</summary>
    public static Dictionary<int, ImmutableArray<PlacedLeaf>> Placed(SectionSyntax section, Voice voice, Func<int, Meter> meterOf) =>
        section.BarsOf(voice).ToDictionary(b => b.Key, b => Placed(b.Value.Line, b.Value.Bar, b.Key, meterOf));

    private static ImmutableArray<PlacedLeaf> Placed(PartLine line, BarSyntax written, int bar, Func<int, Meter> meterOf)
    {
        var meter = line.MeterAt(bar, meterOf);
        return [.. written.Leaves.Where(l => !l.GoesOn).Select(l => new PlacedLeaf(l.StartIn(meter), l, line)).Where(l => l.Start < meterOf(bar).BarLength)];
    }

    private static void Put(Dictionary<int, ImmutableArray<PlacedLeaf>> bars, int bar, PlacedLeaf leaf)
    {
        var there = bars.GetValueOrDefault(bar, []);
        if (!there.Any(l => l.Start == leaf.Start && !l.Leaf.Silences))
            bars[bar] = [.. there.Where(l => l.Start != leaf.Start).Append(leaf).OrderBy(l => l.Start)];
    }
}
