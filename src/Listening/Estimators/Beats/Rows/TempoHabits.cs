using System.Collections.Immutable;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>How usual it is that people feel a beat at a tempo, as published beat annotations of some 2,200 songs have it (models/beats.json).</summary>
/// <param name="LogDensity">At the tempi of <see cref="PulseEvidence.BeatsPerMinute"/>, against an even spread over the logarithm of the tempo.</param>
internal sealed record TempoHabits(ImmutableArray<double> LogDensity)
{
    /// <summary>Tempi so many places apart are about alike: a tenth of an octave.</summary>
    public const int Near = 2;

    /// <summary>The share of music whose beat people feel at about a tempo, 0 to 1.</summary>
    public double Share(double beatsPerMinute)
    {
        var place = (int)Math.Round(PulseEvidence.PlaceOf(beatsPerMinute));
        var (from, to) = (Math.Clamp(place - Near, 0, LogDensity.Length), Math.Clamp(place + Near + 1, 0, LogDensity.Length));
        return Enumerable.Range(from, to - from).Sum(t => Math.Exp(LogDensity[t])) / LogDensity.Length;
    }

    /// <summary>The logarithm of how much more usual a tempo is than one drawn evenly.</summary>
    public double At(double beatsPerMinute)
    {
        var place = Math.Clamp(PulseEvidence.PlaceOf(beatsPerMinute), 0, LogDensity.Length - 1.001);
        var (low, part) = ((int)place, place - (int)place);
        return LogDensity[low] * (1 - part) + LogDensity[low + 1] * part;
    }
}
