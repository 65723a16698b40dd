using System.Collections.Immutable;
using System.CommandLine;
using Harkbook.App.Messages;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;

namespace Harkbook.App.Choices;

/// <summary>Which harmonicas a command is about, as a player says it.</summary>
internal static class HarpOptions
{
    private const string Every = "all";

    public static Option<string?> Layout() =>
        new("--layout")
        {
            Description = $"The layout: {string.Join(", ", HarpLayout.All.Select(l => l.Name))}, or {Every}; without it, {HarpLayout.Usual}",
            HelpName = "NAME",
        };

    public static Option<bool> Octaves() =>
        new("--octaves") { Description = "Also low harmonicas, an octave down, and high ones, an octave up" };

    public static ImmutableArray<HarpLayout> ReadLayouts(string? name) =>
        name is null ? [HarpLayout.Richter]
        : name == Every ? HarpLayout.All
        : HarpLayout.Find(name) is { } layout ? [layout]
        : throw new UsageException($"--layout {name}: the layouts are {string.Join(", ", HarpLayout.All.Select(l => l.Name))}; {Every} takes every one.");

    /// <summary>Every usual key in each layout, and its low and high ones where wanted.</summary>
    public static IEnumerable<Harmonica> Candidates(ImmutableArray<HarpLayout> layouts, bool octaves) =>
        from layout in layouts
        from octave in octaves ? new[] { 0, -1, 1 } : [0]
        from key in Harmonica.UsualKeys
        select Harmonica.Of(layout, key, octave);

    /// <summary>Reads "G", "low F", "high G".</summary>
    public static Harmonica ReadHarmonica(string[] words, HarpLayout layout)
    {
        var octave = words[0] switch { "low" => -1, "high" => 1, _ => 0 };
        return words[(octave == 0 ? 0 : 1)..] is [var key] && PitchName.TryParse(key, out var name)
            ? Harmonica.Of(layout, name, octave)
            : throw new UsageException(
                $"'{string.Join(' ', words)}' is not a harmonica; write its key, low or high before it where it is one, as in G or \"low F\".");
    }
}
