using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>Says for every span how well each chord explains it.</summary>
internal interface IChordWeigher
{
    WeighedChords Weigh(NotePosteriorgram notes, IReadOnlyList<ChordSpan> spans, CancellationToken ct);
}
