using System.Collections.Immutable;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Collects diagnostics; the same remark at the same place counts once (bars that a section takes over are read again).</summary>
internal sealed class DiagnosticBag(SourceText source, string file)
{
    private readonly HashSet<Remark> found = [];

    public void Add(DiagnosticCode code, Span at, string message, string? suggestion = null) => found.Add(new(code, at, message, suggestion));

    public bool Has(DiagnosticCode code) => found.Any(f => f.Code == code);

    public ImmutableArray<Diagnostic> InOrder() => [.. found.OrderBy(f => f.At.Start).ThenBy(f => f.Code).Select(ToDiagnostic)];

    private Diagnostic ToDiagnostic(Remark remark)
    {
        var (line, column) = source.Locate(remark.At.Start);
        return new(remark.Code, SeverityOf(remark.Code), file, line, column, remark.At.Length, remark.Message, remark.Suggestion);
    }

    private static Severity SeverityOf(DiagnosticCode code) => code switch
    {
        DiagnosticCode.NotGiven or DiagnosticCode.WhichShape or DiagnosticCode.EmptySection or DiagnosticCode.WordsTakenOver
            or DiagnosticCode.NoTunePlayer => Severity.Hint,
        DiagnosticCode.OutOfOrder or DiagnosticCode.FingersUnheld or DiagnosticCode.ShapeContradicts or DiagnosticCode.RecordingElsewhere
            or DiagnosticCode.NoHarp or DiagnosticCode.EmptyPick or DiagnosticCode.PatternStops or DiagnosticCode.UnevenCells
            or DiagnosticCode.MutedString or DiagnosticCode.NothingBefore
            or DiagnosticCode.BarsPastEnd or DiagnosticCode.ChangeOutside or DiagnosticCode.UnsignedCorrection or DiagnosticCode.StandingNowhere
                or DiagnosticCode.StandingNotKept => Severity.Warning,
        _ => Severity.Error,
    };

    private sealed record Remark(DiagnosticCode Code, Span At, string Message, string? Suggestion);
}
