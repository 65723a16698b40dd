using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>Weighs chords by which notes each should hold (<see cref="ChordFit"/>), without trained weights: the fallback and the yardstick.</summary>
internal sealed class TemplateChordWeigher : IChordWeigher
{
    public WeighedChords Weigh(NotePosteriorgram evidence, IReadOnlyList<ChordSpan> spans, ChordOptions options, CancellationToken ct) =>
        new(spans, Array.ConvertAll(ChordSpan.Contents(evidence, spans, ct), ChordFit.LogLikelihoods), [.. spans.Select(s => options.ChangeAt(s.Place))], null);
}
