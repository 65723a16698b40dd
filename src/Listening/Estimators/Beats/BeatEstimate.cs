using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Tempo, meter and beats of a recording.</summary>
/// <param name="Tempo">Felt beats a minute; 0 with no confidence where no beat is heard. The confidence is the F-measure that beats at this tempo are expected
/// to have.</param>
/// <param name="Meter">The meter of most bars.</param>
/// <param name="Beats">Every felt beat from the first to the last that music sounds on; empty where there is none.</param>
public sealed record BeatEstimate(Distribution<double> Tempo, Distribution<Meter> Meter, ImmutableArray<HeardBeat> Beats);
