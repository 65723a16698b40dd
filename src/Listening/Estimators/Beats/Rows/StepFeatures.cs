using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>
/// What speaks for a step of a row, whatever its place in the bar: what the beat network says of its beat and its length, whether anything starts on
/// the beat, the accents of notes on the beat against those halfway before it, and how many strokes the step holds.
/// </summary>
internal sealed class StepFeatures
{
    /// <summary>The names of the features, in order, as models/beats.json gives their weights.</summary>
    public static readonly string[] Names =
    [
        "beat", "each beat", "felt tempo", "usual tempo", "silence", "onset over halfway", "beat halfway", "chord over halfway",
        "thumb", "low note", "change of harmony", "change of bass", "long note", "loudness", "stroke",
        "no stroke between", "two strokes between", "three strokes between", "more strokes between",
    ];

    public static int Count => Names.Length;

    private const double UsualBeat = 0.18;
    private const double Clear = 0.8;
    private const int NearSound = 3;
    private const int FirstAccent = 8;
    private const int FirstStrokes = FirstAccent + Accent.Count;

    private readonly PulseEvidence evidence;
    private readonly double[] onsets;
    private readonly NoteAccents notes;

    private readonly TempoHabits habits;

    /// <param name="onsets">How much starts in each frame, in root mean squares of its surroundings.</param>
    public StepFeatures(PulseEvidence evidence, double[] onsets, NoteAccents notes, TempoHabits habits) =>
        (this.evidence, this.onsets, this.notes, this.habits) = (evidence, onsets, notes, habits);

    /// <param name="interval">In frames; 0 for the first beat of a row.</param>
    public void Fill(int frame, int interval, Span<float> into)
    {
        into.Clear();
        into[0] = Beat(frame);
        into[1] = 1;
        into[4] = Loudest(frame) < Clear ? 1 : 0;
        if (interval == 0)
            return;
        into[2] = (float)Math.Log(0.1 + FeltTempo(frame, interval) * PulseEvidence.Tempi);
        into[3] = (float)habits.At(60 * PulseEvidence.FrameRate / interval);
        into[5] = (float)Math.Log((0.3 + Loudest(frame)) / (0.3 + Loudest(frame - interval / 2)));
        into[6] = Beat(frame - interval / 2);
        into[7] = Chord(frame) - Chord(frame - interval / 2);
        var (on, off) = (notes.At(frame, interval), notes.At(frame - interval / 2.0, interval));
        Contrast(on, off, into.Slice(FirstAccent, Accent.Count));
        var between = notes.Between(frame - interval, frame);
        if (between != 1)
            into[FirstStrokes + Math.Min(3, between == 0 ? 0 : between - 1)] = 1;
    }

    private float Beat(int frame) => (float)Math.Clamp(LogOdds.Of(PulseEvidence.Top(evidence.Beat, frame)) - LogOdds.Of(UsualBeat), -4, 5);

    private float Chord(int frame) => (float)Math.Clamp(LogOdds.Of(PulseEvidence.Top(evidence.Change, frame), least: 0.01), -4, 4);

    private static void Contrast(Accent on, Accent off, Span<float> into)
    {
        into[0] = (float)Math.Clamp(on.Thumb - off.Thumb, -2, 2);
        into[1] = (float)(on.Low - off.Low);
        into[2] = (float)(on.Change - off.Change);
        into[3] = (float)(on.BassChange - off.BassChange);
        into[4] = (float)(on.Length - off.Length);
        into[5] = (float)Math.Clamp(on.Loudness - off.Loudness, -3, 3);
        into[6] = (float)(on.Strokes - off.Strokes);
    }

    private double FeltTempo(int frame, int interval)
    {
        var place = Math.Clamp(PulseEvidence.PlaceOf(60 * PulseEvidence.FrameRate / interval), 0, PulseEvidence.Tempi - 1.001);
        var (low, part) = ((int)place, place - (int)place);
        return evidence.Tempo[frame, low] * (1 - part) + evidence.Tempo[frame, low + 1] * part;
    }

    private double Loudest(int frame)
    {
        var top = 0.0;
        for (var f = Math.Max(0, frame - NearSound); f <= Math.Min(onsets.Length - 1, frame + NearSound); f++)
            top = Math.Max(top, onsets[f]);
        return top;
    }
}
