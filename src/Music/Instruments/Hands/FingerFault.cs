namespace Harkbook.Music.Instruments.Hands;

/// <summary>Fingers given for a shape that contradict it.</summary>
/// <param name="StringIndex">0 for the low side: the string whose finger is wrong.</param>
/// <param name="Sentence">In players' words; strings are numbered from the thin one.</param>
public readonly record struct FingerFault(int StringIndex, string Sentence);
