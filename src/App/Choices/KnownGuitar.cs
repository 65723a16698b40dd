using System.Collections.Immutable;
using System.CommandLine;
using Harkbook.Listening;
using Harkbook.Listening.Reading;
using Harkbook.Music.Instruments;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.App.Choices;

/// <summary>What the person knows of the guitar; it outranks what is heard of it.</summary>
internal sealed record KnownGuitar(Tuning? Tuning, Capo? Capo)
{
    public bool IsKnown => Tuning is not null || Capo is not null;

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

    /// <summary>With what a song's own lines have decided where nothing else is told; under a tuning that it decided, the capo that it has.</summary>
    public KnownGuitar Or(Song song) => new(
        Tuning ?? (song.Tuning.Standing.Kind == StandingKind.Heard ? null : song.Tuning.Value),
        Capo ?? (song.Capo.Standing.Kind == StandingKind.Heard
            && (Tuning is not null || song.Tuning.Standing.Kind == StandingKind.Heard) ? null : song.Capo.Value));

    /// <summary>Which facts of a song are told now: those given, and where one is, the other if it was only heard.</summary>
    public ImmutableArray<SongFact> ToldOver(Song song) =>
    [
        .. Tuning is not null || (IsKnown && song.Tuning.Standing.Kind == StandingKind.Heard) ? [SongFact.Tuning] : Array.Empty<SongFact>(),
        .. Capo is not null || (IsKnown && song.Capo.Standing.Kind == StandingKind.Heard) ? [SongFact.Capo] : Array.Empty<SongFact>(),
    ];
}
