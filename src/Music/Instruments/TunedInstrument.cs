namespace Harkbook.Music.Instruments;

/// <summary>A tuning on the instrument that it is for.</summary>
public sealed record TunedInstrument(Tuning Tuning, FrettedInstrument Instrument);
