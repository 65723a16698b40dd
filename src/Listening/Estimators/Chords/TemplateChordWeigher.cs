namespace Harkbook.Listening.Estimators.Chords;

/// <summary>Weighs chords by which notes each should hold (<see cref="ChordFit"/>), without trained weights: the fallback and the yardstick.</summary>
internal sealed class TemplateChordWeigher : IChordWeigher
{
    public double[][] Weigh(NoteEvidence evidence, IReadOnlyList<ChordSpan> spans, CancellationToken ct)
    {
        var fits = new double[spans.Count][];
        Parallel.For(0, fits.Length, new ParallelOptions { CancellationToken = ct }, i =>
            fits[i] = ChordFit.LogLikelihoods(PitchClassContent.Between(evidence, spans[i].Start, spans[i].End)));
        return fits;
    }
}
