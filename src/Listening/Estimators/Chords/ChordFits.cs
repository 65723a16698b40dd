namespace Harkbook.Listening.Estimators.Chords;

/// <summary>How well each chord explains each span of a recording: what <see cref="ChordEstimator"/> decides from, whatever the keys are.</summary>
public sealed class ChordFits
{
    internal ChordFits(List<ChordSpan> spans, double[][] values) => (Spans, Values) = (spans, values);

    internal List<ChordSpan> Spans { get; }

    /// <summary>Spans × states of <see cref="ChordVocabulary"/>, in natural log units.</summary>
    internal double[][] Values { get; }
}
