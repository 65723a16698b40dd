using Harkbook.Listening.Interchange;
using Harkbook.Units;

namespace Harkbook.Listening.Evaluation;

/// <summary>Scores what was heard of a second instrument. What the annotation doesn't tell isn't scored.</summary>
internal static class SecondInstrumentScores
{
    public static IEnumerable<Measured> Of(HeardSecondInstrument heard, Hertz a4, Annotation truth)
    {
        if (truth.SecondInstrument is { } kind)
            yield return new("second instrument, first choice", heard.Kind.Best == kind ? 1 : 0);
        if (!truth.Melody.IsEmpty)
        {
            var melody = MelodyScores.Of([.. truth.Melody.Select(p => new MelodyFrame(p.Hertz is { } hertz ? CentsOf(hertz) : null, At(heard.Contour, p.Time, a4)))]);
            yield return new("melody raw pitch", melody.RawPitch);
            yield return new("melody voicing recall", melody.VoicingRecall);
            yield return new("melody voicing false alarm", melody.VoicingFalseAlarm);
            yield return new("melody overall accuracy", melody.Overall);
        }
        foreach (var measured in Notes(heard, a4, truth).Concat(Harp(heard, truth)))
            yield return measured;
    }

    private static IEnumerable<Measured> Notes(HeardSecondInstrument heard, Hertz a4, Annotation truth)
    {
        if (truth.LineNotes.IsEmpty)
            yield break;
        var (reference, estimated) = (truth.LineNotes.Select(n => n.Note).ToArray(), Scored(heard, a4));
        yield return new("line note onset F", NoteScores.OnsetAndPitch(reference, estimated).F);
        var holes = truth.LineNotes.Count(n => n.Hole is not null);
        if (holes > 0)
            yield return new("harp hole and breath", Right(heard, truth, NoteScores.Match(reference, estimated)) / (double)holes, holes);
    }

    private static IEnumerable<Measured> Harp(HeardSecondInstrument heard, Annotation truth)
    {
        if (truth.HarpKey is { } key)
            yield return new("harp key, first choice", heard.Harp?.Best.Key == key ? 1 : 0);
    }

    private static int Right(HeardSecondInstrument heard, Annotation truth, int[] matches) =>
        truth.LineNotes.Where((n, i) => n.Hole is { } hole && matches[i] >= 0 && heard.Notes[matches[i]].Holes?.Best == hole).Count();

    private static ScoredNote[] Scored(HeardSecondInstrument heard, Hertz a4)
    {
        var offset = Cents.Between(Hertz.A440, a4).Value / 100;
        return [.. heard.Notes.Select(n => new ScoredNote(n.Onset.Value, n.End.Value, n.Midi + offset))];
    }

    private static double? At(PitchContour contour, double time, Hertz a4)
    {
        var frame = (int)Math.Round(time / contour.Hop.Value);
        return frame >= 0 && frame < contour.Frames && contour.PitchAt(frame, a4) is { } pitch ? CentsOf(pitch.Value) : null;
    }

    private static double CentsOf(double hertz) => 1200 * Math.Log2(hertz / 10);
}
