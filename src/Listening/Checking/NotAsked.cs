using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking;

/// <summary>What a song claims that a check doesn't ask the recording about.</summary>
internal static class NotAsked
{
    public static ImmutableArray<string> Of(Song song, Hearing hearing) =>
    [
        .. hearing.Evidence.Stiffness == StiffnessEvidence.None && song.Bars.Any(b => !b.Picked.IsEmpty)
            ? ["on which of two strings a note is picked, where the hand reaches both"] : (string[])[],
        .. song.Bars.Any(b => b.Picked.Any(p => IsJoined(p.Value.Attack))) ? ["which notes are hammered, pulled or slid"] : (string[])[],
        .. song.Bars.All(b => b.Sung.IsEmpty) ? (string[])[]
            : [hearing.Lines.Of(LineKind.Voice) is null ? "where words are sung, since no voice was made out" : "which words are sung"],
        .. song.Shapes.Any(s => !s.Shape.Fingers.IsEmpty) ? ["which fingers hold the shapes"] : (string[])[],
        .. TuneUnheard(song, hearing) ? ["the tune's notes, where whoever has it wasn't made out"] : (string[])[],
    ];

    private static bool TuneUnheard(Song song, Hearing hearing) =>
        song.Sections.Any(s => s.Bars.Any(b => !b.Tune.IsEmpty) && TuneLine.Of(song, s, hearing) is null);

    private static bool IsJoined(Attack attack) => attack is Attack.HammeredOn or Attack.PulledOff or Attack.Slid or Attack.Tapped;
}
