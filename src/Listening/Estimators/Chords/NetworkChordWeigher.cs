using Harkbook.Listening.Evidence;
using Microsoft.ML.OnnxRuntime;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>
/// Weighs chords, changes of chord and keys by a network over all spans at once, in which twelve roots stand in a ring
/// (models/README.md is its card, training/chords tells how it was made).
/// </summary>
internal sealed class NetworkChordWeigher(SpanWeights weights) : IChordWeigher
{
    private static readonly string[] Outputs = ["chords", "bass", "keys", "change"];
    private static readonly int Kinds = ChordVocabulary.Qualities.Length;

    public WeighedChords Weigh(NotePosteriorgram notes, IReadOnlyList<ChordSpan> spans, CancellationToken ct)
    {
        var rows = ChordInput.Of(notes, spans, ct);
        var contents = ChordSpan.Contents(notes, spans, ct);
        var (chords, bass, keys, change) = Run(rows);
        return new(
            spans,
            [.. spans.Select((_, i) => Fits(contents[i], chords.AsSpan(i * (1 + 12 * Kinds), 1 + 12 * Kinds), bass.AsSpan(i * 144, 144)))],
            [.. spans.Select((s, i) => Change(Math.Exp(change[i]), s.Place))],
            contents,
            [.. spans.Select((_, i) => Array.ConvertAll(keys[(24 * i)..(24 * i + 24)], k => (double)k))]);
    }

    /// <returns>Log chances: chords (no chord first, then each kind on C, each on C#, and so on), the bass by semitones above each root, keys, a
    /// change.</returns>
    internal static (float[] Chords, float[] Bass, float[] Keys, float[] Change) Run(float[][] rows)
    {
        using var session = NetworkSession.Open(ModelFile.Read("chords.onnx"));
        using var input = OrtValue.CreateTensorValueFromMemory(rows.SelectMany(r => r).ToArray(), [1, rows.Length, ChordInput.Width]);
        using var results = session.Run("rows", input, Outputs, isLast: true);
        float[] Values(int i) => results[i].GetTensorDataAsSpan<float>().ToArray();
        return (Values(0), Values(1), Values(2), Values(3));
    }

    private double Change(double heard, SpanPlace place) => LogOdds.Chance(
        weights.ChangeShare * LogOdds.Of(heard) + (1 - weights.ChangeShare) * LogOdds.Of(weights.ChangeAt(place)) + weights.Readier);

    private double[] Fits(PitchClassContent content, ReadOnlySpan<float> chords, ReadOnlySpan<float> bass)
    {
        var states = ChordVocabulary.States;
        var fits = new double[states.Length];
        for (var s = 0; s < fits.Length; s++)
        {
            var state = states[s];
            fits[s] = state.Quality is null ? chords[0] + Math.Log(content.Silence + weights.Silence)
                : chords[1 + state.Root * Kinds + state.Quality.Index] + weights.Bass * bass[12 * state.Root + state.Bass.Semitones % 12]
                    + weights.Lowest * ChordFit.Bass(content, state);
        }
        return fits;
    }
}
