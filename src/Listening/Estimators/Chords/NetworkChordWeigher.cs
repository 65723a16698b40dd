using Harkbook.Listening.Evidence;
using Microsoft.ML.OnnxRuntime;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>
/// Weighs chords, changes of chord and keys by a network over all spans at once, in which twelve roots stand in a ring
/// (models/README.md is its card, training/chords tells how it was made).
/// </summary>
internal sealed class NetworkChordWeigher : IChordWeigher
{
    // How far what it says of the bass counts beside the chord, and how far beside both what lies lowest, because in what it was taught the
    // lowest note of a beat was often only a pattern's. Like everything here, chosen on 30 pieces of bench/pieces (seed 41).
    private const double BassWeight = 1;
    private const double LowestWeight = 0.35;

    // "No chord" was taught mostly by what comes before and after the music, where chords ring out; where notes sound, doubt counts against it.
    private const double LeastSilence = 0.05;

    // How far the network, and how far the place in the bar, tells whether the chord changes; and how much readier to change than they say.
    private const double ChangeShare = 0.6;
    private const double Readier = 1.2;

    private static readonly string[] Outputs = ["chords", "bass", "keys", "change"];
    private static readonly int Kinds = ChordVocabulary.Qualities.Length;

    public WeighedChords Weigh(NotePosteriorgram evidence, IReadOnlyList<ChordSpan> spans, ChordOptions options, CancellationToken ct)
    {
        var rows = ChordInput.Of(evidence, spans, ct);
        var contents = ChordSpan.Contents(evidence, spans, ct);
        var (chords, bass, keys, change) = Run(rows);
        return new(
            spans,
            [.. spans.Select((_, i) => Fits(contents[i], chords.AsSpan(i * (1 + 12 * Kinds), 1 + 12 * Kinds), bass.AsSpan(i * 144, 144)))],
            [.. spans.Select((s, i) => LogOdds.Chance(ChangeShare * LogOdds.Of(Math.Exp(change[i])) + (1 - ChangeShare) * LogOdds.Of(options.ChangeAt(s.Place)) + Readier))],
            [.. spans.Select((_, i) => Array.ConvertAll(keys[(24 * i)..(24 * i + 24)], k => (double)k))]);
    }

    /// <returns>Log chances: chords (no chord first, then each kind on C, each on C#, and so on), the bass by semitones above each root, keys, a change.</returns>
    internal static (float[] Chords, float[] Bass, float[] Keys, float[] Change) Run(float[][] rows)
    {
        using var session = NetworkSession.Open(ModelFile.Read("chords.onnx"));
        using var run = NetworkSession.Last();
        using var input = OrtValue.CreateTensorValueFromMemory(rows.SelectMany(r => r).ToArray(), [1, rows.Length, ChordInput.Width]);
        using var results = session.Run(run, ["rows"], [input], Outputs);
        float[] Values(int i) => results[i].GetTensorDataAsSpan<float>().ToArray();
        return (Values(0), Values(1), Values(2), Values(3));
    }

    private static double[] Fits(PitchClassContent content, ReadOnlySpan<float> chords, ReadOnlySpan<float> bass)
    {
        var states = ChordVocabulary.States;
        var fits = new double[states.Length];
        for (var s = 0; s < fits.Length; s++)
        {
            var state = states[s];
            fits[s] = state.Quality is null ? chords[0] + Math.Log(content.Silence + LeastSilence)
                : chords[1 + state.Root * Kinds + state.Quality.Index] + BassWeight * bass[12 * state.Root + state.Bass.Semitones % 12]
                    + LowestWeight * ChordFit.Bass(content, state);
        }
        return fits;
    }
}
