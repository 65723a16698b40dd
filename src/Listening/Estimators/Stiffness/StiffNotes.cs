using System.Collections.Immutable;
using System.Numerics.Tensors;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Stiffness;

/// <summary>
/// A list of notes with what is known of their strings' stiffness: how likely a note's sound is under each stiffness, against any stiffness as likely as
/// another; 1 says nothing. A share of notes is taken to be measured wrongly.
/// </summary>
internal sealed class StiffNotes
{
    private const int Margin = 24, Width = StiffnessGrid.Count + 2 * Margin;

    private static readonly StringModel Model = StiffnessModel.Shipped.Strings;

    /// <summary>By note: over the grid, with its ends repeated to both sides.</summary>
    private readonly float[]?[] likelihoods, logs;

    private StiffNotes(float[]?[] rows) => (likelihoods, logs) = (rows, [.. rows.Select(Logs)]);

    /// <summary>Nothing is known.</summary>
    public static StiffNotes None { get; } = new([]);

    /// <param name="notes">The list that all else here counts by.</param>
    public static StiffNotes Of(StiffnessEvidence evidence, ImmutableArray<HeardNote> notes) =>
        evidence.Count == 0 ? None : new([.. notes.Select(n => evidence.LogsOf(n) is { } said ? Row(said) : null)]);

    public bool Knows(int note) => note < likelihoods.Length && likelihoods[note] is not null;

    public double Of(int note, double logB) => likelihoods[note]![Place(logB)];

    /// <summary>Natural logs for stiffnesses a step of the grid apart, the middle one as given.</summary>
    public ReadOnlySpan<float> Around(int note, double logB, int steps) => logs[note].AsSpan(Place(logB) - steps / 2, steps);

    private static int Place(double logB) =>
        Margin + Math.Clamp((int)Math.Round(StiffnessGrid.PlaceOf(logB)), -Margin / 2, StiffnessGrid.Count + Margin / 2 - 1);

    private static float[] Row(float[] said)
    {
        var mean = said.Average(MathF.Exp);
        return [.. Enumerable.Range(-Margin, Width)
            .Select(b => (float)(Model.Wrong + (1 - Model.Wrong) * Math.Exp(said[Math.Clamp(b, 0, StiffnessGrid.Count - 1)]) / mean))];
    }

    private static float[]? Logs(float[]? row)
    {
        if (row is null)
            return null;
        var logs = new float[row.Length];
        TensorPrimitives.Log<float>(row, logs);
        return logs;
    }
}
