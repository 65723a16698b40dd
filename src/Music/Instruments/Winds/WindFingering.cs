using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Winds;

/// <summary>What a fingering asks of the player, the easiest first.</summary>
public enum WindTechnique
{
    /// <summary>Holes closed from the top down, the rest open.</summary>
    Plain,

    /// <summary>A closed hole below an open one.</summary>
    Crossed,

    /// <summary>A hole half closed, hard to place in fast playing.</summary>
    HalfHoled,
}

/// <summary>One way to sound a pitch on a wind with finger holes.</summary>
/// <param name="Holes">From the top: x closed, o open, h half closed.</param>
/// <param name="IsOverblown">Blown harder, so that it sounds in the high register.</param>
public sealed record WindFingering(Pitch Pitch, string Holes, bool IsOverblown, string Source)
{
    public WindTechnique Technique =>
        Holes.Contains('h') ? WindTechnique.HalfHoled
        : Holes.TrimStart('x').Contains('x') ? WindTechnique.Crossed
        : WindTechnique.Plain;

    /// <summary>The holes from the top as dots: ● closed, ○ open, ◐ half closed; + behind an overblown one (common practice).</summary>
    public override string ToString() => Holes.Replace('x', '●').Replace('o', '○').Replace('h', '◐') + (IsOverblown ? "+" : "");
}
