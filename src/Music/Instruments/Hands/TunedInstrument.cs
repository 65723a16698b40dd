using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Instruments.Hands;

/// <summary>A tuning on the instrument that it is for.</summary>
public sealed record TunedInstrument(Tuning Tuning, FrettedInstrument Instrument);
