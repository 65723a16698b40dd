using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>When the places of a song sound.</summary>
internal interface IBarTimes
{
    /// <param name="bar">From 1; one past the last is the song's end.</param>
    /// <param name="inBar">Felt beats from the bar's start; may reach past its end.</param>
    Seconds At(int bar, Beats inBar);
}
