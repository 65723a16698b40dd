using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>A felt beat as somebody tapped it against the recording.</summary>
/// <param name="Bar">1 for the song's first; one past the last is the song's end.</param>
/// <param name="Beat">From 0, the bar's line.</param>
public readonly record struct TappedBeat(Seconds At, int Bar, int Beat)
{
    public override string ToString() => Beat == 0 ? $"bar {Bar}" : $"bar {Bar} beat {Beat + 1}";
}
