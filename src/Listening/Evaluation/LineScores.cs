using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using Harkbook.Units;

namespace Harkbook.Listening.Evaluation;

/// <summary>Scores the lines that were heard with the guitar. What the annotation doesn't tell isn't scored.</summary>
internal static class LineScores
{
    /// <summary>Where several lines are annotated, what is said of each counts the same.</summary>
    public static IEnumerable<Measured> Of(HeardLines heard, Hertz a4, Annotation truth)
    {
        if (truth.Lines is not { } lines)
            return [];
        var kinds = lines.Select(l => l.Kind).ToHashSet();
        IEnumerable<Measured> told = kinds.Contains(null) ? []
            : [new("second instruments, just these", kinds.SetEquals(heard.Found.Select(l => (LineKind?)l.Kind.Best)) ? 1 : 0)];
        var each = lines.Select(line => Of(Meant(heard, lines, line), a4, line).ToImmutableArray());
        return told.Concat(Evaluator.Mean(each).Select(m => m with { Weight = 1 }));
    }

    public static IEnumerable<Measured> Of(HeardLine? heard, Hertz a4, AnnotatedLine truth)
    {
        if (!truth.Melody.IsEmpty)
        {
            var melody = MelodyScores
                .Of([.. truth.Melody.Select(p => new MelodyFrame(p.Hertz is { } hertz ? CentsOf(hertz) : null, At(heard?.Contour, p.Time, a4)))]);
            yield return new("melody raw pitch", melody.RawPitch);
            yield return new("melody voicing recall", melody.VoicingRecall);
            yield return new("melody voicing false alarm", melody.VoicingFalseAlarm);
            yield return new("melody overall accuracy", melody.Overall);
        }
        if (!truth.Notes.IsEmpty)
        {
            var (reference, estimated) = (truth.Notes.Select(n => n.Note).ToArray(), Scored(heard, a4));
            yield return new("line note onset F", NoteScores.OnsetAndPitch(reference, estimated).F);
            var holes = truth.Notes.Count(n => n.Hole is not null);
            if (holes > 0)
                yield return new("harp hole and breath", Right(heard, truth, NoteScores.Match(reference, estimated)) / (double)holes, holes);
        }
        if (truth.HarpKey is { } key)
            yield return new("harp key, first choice", heard?.Harp?.Best.Key == key ? 1 : 0);
    }

    /// <summary>The heard line of the same kind; failing that the surest whose kind nobody plays, so that pitches count however it was named.</summary>
    public static HeardLine? Meant(HeardLines heard, ImmutableArray<AnnotatedLine> lines, AnnotatedLine line) =>
        heard.Found.FirstOrDefault(l => l.Kind.Best == line.Kind) ?? heard.Found.FirstOrDefault(l => !lines.Any(t => t.Kind == l.Kind.Best));

    private static int Right(HeardLine? heard, AnnotatedLine truth, int[] matches) =>
        truth.Notes.Where((n, i) => n.Hole is { } hole && matches[i] >= 0 && heard!.Notes[matches[i]].Holes?.Best == hole).Count();

    private static ScoredNote[] Scored(HeardLine? heard, Hertz a4)
    {
        var offset = Cents.Between(Hertz.A440, a4).Value / 100;
        return [.. (heard?.Notes ?? []).Select(n => new ScoredNote(n.Onset.Value, n.End.Value, n.Midi + offset))];
    }

    private static double? At(PitchContour? contour, double time, Hertz a4)
    {
        if (contour is null)
            return null;
        var frame = (int)Math.Round(time / contour.Hop.Value);
        return frame >= 0 && frame < contour.Frames && contour.PitchAt(frame, a4) is { } pitch ? CentsOf(pitch.Value) : null;
    }

    private static double CentsOf(double hertz) => 1200 * Math.Log2(hertz / 10);
}
