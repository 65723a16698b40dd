namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>Where each note was taken to be played.</summary>
/// <param name="Strings">By note: the string's index, or −1 where no string takes it.</param>
/// <param name="Frets">By note: the fret, or −1.</param>
/// <param name="Confidence">By note, 0–1: how many of the ways still open a little later agree, brought to how often that was right on made pieces.</param>
/// <param name="Positions">By struck group: the index finger's fret from the capo.</param>
/// <param name="Cost">Of the whole path.</param>
internal sealed record FretPath(int[] Strings, int[] Frets, double[] Confidence, int[] Positions, double Cost);
