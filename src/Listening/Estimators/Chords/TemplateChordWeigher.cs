using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>Weighs chords by which notes each should hold (<see cref="ChordFit"/>), without trained weights: the fallback and the yardstick.</summary>
internal sealed class TemplateChordWeigher(SpanWeights weights) : IChordWeigher
{
    public WeighedChords Weigh(NotePosteriorgram notes, IReadOnlyList<ChordSpan> spans, CancellationToken ct)
    {
        var contents = ChordSpan.Contents(notes, spans, ct);
        return new(spans, Array.ConvertAll(contents, ChordFit.LogLikelihoods), [.. spans.Select(s => weights.ChangeAt(s.Place))], contents, null);
    }
}
