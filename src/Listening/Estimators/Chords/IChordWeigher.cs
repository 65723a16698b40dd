using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>Says for every span how well each chord explains it.</summary>
internal interface IChordWeigher
{
    WeighedChords Weigh(NotePosteriorgram evidence, IReadOnlyList<ChordSpan> spans, ChordOptions options, CancellationToken ct);
}
