namespace Harkbook.Listening.Interchange;

/// <summary>A note as scorers see it: onset and end in seconds, pitch as a fractional MIDI number about A440.</summary>
/// <param name="StringIndex">0 = lowest string; null where unknown.</param>
public sealed record ScoredNote(double Onset, double End, double Midi, int? StringIndex = null);
