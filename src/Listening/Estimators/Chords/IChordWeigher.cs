namespace Harkbook.Listening.Estimators.Chords;

/// <summary>Says for every span how well each state of <see cref="ChordVocabulary"/> explains it, in natural log units.</summary>
internal interface IChordWeigher
{
    double[][] Weigh(NoteEvidence evidence, IReadOnlyList<ChordSpan> spans, CancellationToken ct);
}
