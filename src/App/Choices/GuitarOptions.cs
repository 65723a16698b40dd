using System.CommandLine;
using Harkbook.Jobs;

namespace Harkbook.App.Choices;

/// <summary>The options by which a person says what they know of the guitar.</summary>
internal static class GuitarOptions
{
    public static Option<string?> TuningOption() =>
        new("--tuning")
        {
            Description = "The guitar's open strings from low to high where you know them, as DADGAD or \"D2 A2 D3 G3 A3 D4\", or a name, as \"open G\"; "
                + "without it, as heard",
            HelpName = "STRINGS",
        };

    public static Option<int?> CapoOption() =>
        new("--capo") { Description = "The fret that the capo is at where you know it, 0 for none; without it, as heard", HelpName = "FRET" };

    public static KnownGuitar Read(string? tuning, int? capo) =>
        new(tuning is null ? null : Options.ReadTuning(tuning), capo is { } fret ? Options.ReadCapo(fret) : null);
}
