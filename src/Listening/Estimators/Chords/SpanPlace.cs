namespace Harkbook.Listening.Estimators.Chords;

/// <summary>Where in the bar a span starts.</summary>
internal enum SpanPlace
{
    /// <summary>Not told: the beats can't be trusted.</summary>
    Unknown,

    /// <summary>Half way between two beats.</summary>
    Between,

    Beat,

    /// <summary>The bar's first beat; the recording's start counts as one.</summary>
    Downbeat,
}
