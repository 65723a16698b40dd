using Harkbook.Listening.Checking.Strokes;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What the sound says of a stroke at a place: nothing, down, up, or muted, as log-likelihoods against nothing.</summary>
internal sealed class StrokeEvidence
{
    /// <summary>The order of the strings says no more than this, in log-odds: hands that strum alike are misheard alike.</summary>
    private const double Clearest = 2.5;

    private readonly PlayingModel model;
    private readonly StrokeFeatures features;
    private readonly StrokeDirection direction;

    public StrokeEvidence(PlayingModel model, Hearing hearing)
    {
        this.model = model;
        var others = hearing.Lines.Found.SelectMany(l => l.Notes).Select(n => new WrittenNote(n.Midi, n.Onset.Value, n.End.Value));
        features = new(new(hearing.Evidence.Notes), new(hearing.Evidence.Notes), new(hearing.Evidence.Pulse.Bands), new(others));
        direction = new(features);
    }

    /// <summary>By <see cref="StrokeState"/>.</summary>
    public double[] At(double time, int[] pitches)
    {
        var found = Features(time, pitches);
        var (sounds, down) = (model.Stroke.LogOdds(found), model.Order * Math.Clamp(Downward(time, pitches), -Clearest, Clearest));
        double[] all = [0, sounds + Math.Log(2 * LogOdds.Chance(down)), sounds + Math.Log(2 * LogOdds.Chance(-down)), model.Muted.LogOdds(found)];
        return [.. all.Select(l => model.Evidence * l)];
    }

    /// <summary>For something being struck at all, damped or not.</summary>
    public Feature[] Features(double time, int[] pitches) => features.Struck(new(time, Stroke.Down, pitches));

    /// <summary>How much rather down than up, in log-odds.</summary>
    public double Downward(double time, int[] pitches) =>
        pitches.Length < 2 ? 0 : direction.Downward(new(time, Stroke.Down, pitches));
}

/// <summary>What may be in a place of a strummed bar.</summary>
internal enum StrokeState
{
    Nothing,
    Down,
    Up,
    Muted,
}
