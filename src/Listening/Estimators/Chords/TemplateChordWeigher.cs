namespace Harkbook.Listening.Estimators.Chords;

/// <summary>Weighs chords by which notes each should hold (<see cref="ChordFit"/>), without trained weights: the fallback and the yardstick.</summary>
internal sealed class TemplateChordWeigher : IChordWeigher
{
    public double[][] Weigh(NoteEvidence evidence, IReadOnlyList<ChordSpan> spans, CancellationToken ct) =>
        Array.ConvertAll(ChordSpan.Contents(evidence, spans, ct), ChordFit.LogLikelihoods);
}
