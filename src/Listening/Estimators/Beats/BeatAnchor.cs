using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>A beat that a person put down, by a tap or by an anchor. The whole grid is found anew so that it passes through.</summary>
/// <param name="Time">Taken to the nearest fiftieth of a second.</param>
/// <param name="PositionInBar">1 for a downbeat, up to 4; null where the person didn't say.</param>
public sealed record BeatAnchor(Seconds Time, int? PositionInBar = null);
