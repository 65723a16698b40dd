using System.Globalization;
using Harkbook.Music.Theory.Labels;

namespace Harkbook.Listening.Interchange;

/// <summary>What an annotation must keep to so that claims can be weighed and hearings scored; the first breach is said with its place.</summary>
internal static class AnnotationRules
{
    /// <exception cref="AnnotationException">A value that can't be: a time that is no number, a note outside MIDI's, a label that is no chord.</exception>
    public static Annotation Require(Annotation annotation, string path) =>
        Breaches(annotation).FirstOrDefault() is { } breach ? throw new AnnotationException($"{path}: {breach}") : annotation;

    private static IEnumerable<string> Breaches(Annotation annotation) =>
        annotation.Beats.Where(b => !double.IsFinite(b.Time)).Select(_ => "a beat's time is not a number; give seconds.")
            .Concat(annotation.Chords.Concat(annotation.Keys).Concat(annotation.Sections).Where(s => !IsSpan(s.Start, s.End))
                .Select(s => $"'{s.Label}' has no start and end in seconds, the end last."))
            .Concat(annotation.Chords.Select(Misread).OfType<string>())
            .Concat(annotation.Notes.Where(n => !IsSpan(n.Onset, n.End)).Select(_ => "a note has no start and end in seconds, the end last."))
            .Concat(annotation.Notes.Where(n => n.Midi is not (>= 0 and <= 127))
                .Select(n => string.Create(CultureInfo.InvariantCulture,
                    $"the note at {n.Onset:0.###} s has the pitch {n.Midi:0.##}; give 0 to 127 as MIDI counts, or 8.2 to 12543 Hz.")))
            .Concat(Outside(annotation.Duration, 0, 1e6, "length", "seconds"))
            .Concat(Outside(annotation.Tempo, 1, 1000, "tempo", "beats a minute"))
            .Concat(Outside(annotation.ReferenceHertz, 100, 1000, "A4", "Hz"))
            .Concat(Outside(annotation.Capo, 0, 12, "capo", "frets"));

    private static bool IsSpan(double start, double end) => double.IsFinite(start) && double.IsFinite(end) && end >= start;

    private static string? Misread(AnnotatedSpan span) =>
        span.Label == "X" || HarteLabel.TryRead(span.Label, out _, out var problem)
            ? null
            : string.Create(CultureInfo.InvariantCulture, $"at {span.Start:0.###} s, {problem.Describe(span.Label, "a chord label")}");

    private static IEnumerable<string> Outside(double? value, double least, double most, string what, string unit) =>
        value is null || (value >= least && value <= most)
            ? []
            : [string.Create(CultureInfo.InvariantCulture, $"the {what} is {value}; give {least} to {most} {unit}.")];
}
