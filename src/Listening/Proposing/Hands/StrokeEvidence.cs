using Harkbook.Listening.Checking.Strokes;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What the sound says of a stroke at a place: nothing, down, up, or muted, as log-likelihoods against nothing.</summary>
internal sealed class StrokeEvidence
{
    private readonly PlayingModel model;
    private readonly StrokeFeatures features;
    private readonly WeigherModel struck = WeigherModel.Of("Stroke"), muted = WeigherModel.Of("MutedStroke"), direction = WeigherModel.Of("Direction");

    public StrokeEvidence(PlayingModel model, Hearing hearing)
    {
        this.model = model;
        var others = hearing.Lines.Found.SelectMany(l => l.Notes).Select(n => new WrittenNote(n.Midi, n.Onset.Value, n.End.Value));
        features = new(new(hearing.Evidence.Notes), new(hearing.Evidence.Notes), new(hearing.Evidence.Pulse.Bands), new(others));
    }

    /// <summary>How much rather down than up, in log-odds.</summary>
    public double Downward(double time, int[] pitches) =>
        (Weigh(time, pitches, Stroke.Down) - Weigh(time, pitches, Stroke.Up)) / 2;

    /// <summary>By <see cref="StrokeState"/>.</summary>
    public double[] At(double time, int[] pitches)
    {
        var claim = new StrokeClaim(time, Stroke.Down, pitches);
        var sounds = struck.LogOdds(features.Struck(claim));
        var down = model.Order * (pitches.Length > 1 ? Downward(time, pitches) : 0);
        double[] all = [0, sounds + Math.Log(2 * LogOdds.Chance(down)), sounds + Math.Log(2 * LogOdds.Chance(-down)), muted.LogOdds(features.Muted(claim))];
        return [.. all.Select(l => model.Evidence * l)];
    }

    private double Weigh(double time, int[] pitches, Stroke stroke) => direction.LogOdds(features.Direction(new(time, stroke, pitches)));
}

/// <summary>What may be in a place of a strummed bar.</summary>
internal enum StrokeState
{
    Nothing,
    Down,
    Up,
    Muted,
}
