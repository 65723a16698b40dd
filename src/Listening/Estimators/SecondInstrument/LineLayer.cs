namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>All that one instrument plays or sings over the guitar.</summary>
/// <param name="Stretches">By first frame.</param>
/// <param name="Kind">What it is; what the confidences lack of 1 is that there is no such line.</param>
internal sealed record LineLayer(List<LineStretch> Stretches, Distribution<LineKind> Kind);
