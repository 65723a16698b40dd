namespace Harkbook.Listening.Checking;

/// <summary>How a claim stands against the recording.</summary>
public enum Verdict
{
    /// <summary>The recording speaks for it.</summary>
    Supported,

    /// <summary>The recording speaks neither clearly for it nor against it.</summary>
    Doubtful,

    /// <summary>The recording speaks against it.</summary>
    Contradicted,
}
