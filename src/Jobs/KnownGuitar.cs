using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.Jobs;

/// <summary>What the person knows of the guitar; it outranks what is heard of it.</summary>
public sealed record KnownGuitar(Tuning? Tuning, Capo? Capo)
{
    public bool IsKnown => Tuning is not null || Capo is not null;

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
