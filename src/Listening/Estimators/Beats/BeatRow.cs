using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>A beat that was read.</summary>
/// <param name="Held">The second that a person put it at; null where nobody did.</param>
/// <param name="Posterior">The share of all rows, by their likelihood, that have a beat here.</param>
internal readonly record struct ReadBeat(int Frame, int Interval, int Place, double Posterior, double? Held);

/// <summary>The best row of beats of a stretch, and how the likelihood of all its rows is shared out.</summary>
/// <param name="Tempi">For each of <see cref="Ratios"/> the share of beats that rows at such a multiple of the interval have.</param>
/// <param name="Kinds">The share of beats in bars of two, three and four.</param>
internal sealed record BeatRow(ImmutableArray<ReadBeat> Beats, double[] Tempi, double[] Kinds)
{
    /// <summary>Other tempi a listener might tap, as multiples of the interval.</summary>
    public static double[] Ratios { get; } = [1, 2, 0.5, 1.5, 2 / 3.0, 3, 1 / 3.0, 4, 0.25, 4 / 3.0, 0.75];

    /// <summary>The row without the beats before a frame.</summary>
    public BeatRow From(int frame) => this with { Beats = [.. Beats.Where(b => b.Frame >= frame)] };
}
