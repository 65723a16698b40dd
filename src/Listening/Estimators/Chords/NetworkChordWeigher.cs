using Microsoft.ML.OnnxRuntime;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>
/// Weighs chords by a small network that is asked once a root, with the pitch classes turned to that root
/// (models/README.md is its card, training/chords tells how it was made).
/// </summary>
internal sealed class NetworkChordWeigher : IChordWeigher
{
    // The network is shy about basses, because in what it was taught the lowest note of a beat is often only a pattern's; what lies
    // lowest therefore counts beside it. Chosen on 24 pieces of bench/pieces (seed 1).
    private const double BassWeight = 0.35;
    private const double LowestWeight = 0.7;

    // "No chord" was taught mostly by what comes before and after the music, where chords ring out; where notes sound, doubt counts against it.
    private const double LeastSilence = 0.05;

    private static readonly int Kinds = ChordVocabulary.Qualities.Length;

    public double[][] Weigh(NoteEvidence evidence, IReadOnlyList<ChordSpan> spans, CancellationToken ct)
    {
        var contents = ChordSpan.Contents(evidence, spans, ct);
        using var session = NetworkSession.Open(ModelFile.Read("chords.onnx"));
        using var run = new RunOptions();
        using var input = OrtValue.CreateTensorValueFromMemory(Turned(ChordInput.Of(evidence, spans, contents, ct)), [spans.Count, 12, ChordInput.Width]);
        using var results = session.Run(run, ["turned"], [input], ["chords", "bass"]);
        var chords = results[0].GetTensorDataAsSpan<float>();
        var bass = results[1].GetTensorDataAsSpan<float>();
        var fits = new double[spans.Count][];
        for (var i = 0; i < fits.Length; i++)
            fits[i] = Fits(contents[i], chords.Slice(i * (1 + 12 * Kinds), 1 + 12 * Kinds), bass.Slice(i * 144, 144));
        return fits;
    }

    private static float[] Turned(float[][] rows)
    {
        var turned = new float[rows.Length * 12 * ChordInput.Width];
        for (var i = 0; i < rows.Length; i++)
        {
            for (var root = 0; root < 12; root++)
                ChordInput.Turn(rows[i], root, turned.AsSpan((i * 12 + root) * ChordInput.Width, ChordInput.Width));
        }
        return turned;
    }

    /// <param name="chords">No chord first, then each kind on C, each on C#, and so on.</param>
    /// <param name="bass">For each root, each bass by semitones above it.</param>
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
