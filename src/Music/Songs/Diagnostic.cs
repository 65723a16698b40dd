namespace Harkbook.Music.Songs;

/// <summary>How much a diagnostic matters. A song file with an error gives no song.</summary>
public enum Severity
{
    Hint,
    Warning,
    Error,
}

/// <summary>Something to know about a place in a song file.</summary>
/// <param name="Line">From 1.</param>
/// <param name="Column">From 1, in UTF-16 units; a tab counts as one.</param>
/// <param name="Length">How far the place reaches along its line; 0 for a spot between two characters.</param>
/// <param name="Message">What is wrong and what was expected.</param>
/// <param name="Suggestion">What to write instead, where one thing stands out.</param>
public sealed record Diagnostic(
    DiagnosticCode Code, Severity Severity, string File, int Line, int Column, int Length, string Message, string? Suggestion = null)
{
    /// <summary>"ferry.hark:12:14: error: …", the form that editors and terminals turn into a link.</summary>
    public override string ToString() =>
        $"{File}:{Line}:{Column}: {Severity.ToString().ToLowerInvariant()}: {Message}{(Suggestion is null ? "" : $" {Suggestion}")}";
}
