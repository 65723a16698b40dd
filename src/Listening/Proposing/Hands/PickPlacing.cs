using System.Collections.Immutable;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>Lays picked notes on the places of picked bars. A note that fits no place, and one that is likelier wrong than right, isn't written.</summary>
internal sealed class PickPlacing
{
    /// <summary>So many deviations from its place a note fits none.</summary>
    private const double Farthest = 4;

    private readonly PlayingModel model;
    private readonly BeatAxis axis;
    private readonly ILookup<int, Placed> byBar;
    private readonly WeigherModel weights;

    /// <summary>A note at a place, and how sure that is.</summary>
    internal sealed record Placed(int Bar, Beats Start, PickedNote Note, double Sure, Feature[] Features);

    public PickPlacing(PlayingModel model, BeatAxis axis, ILookup<int, Strike> strikes, ImmutableArray<PlayedBar> bars)
    {
        (this.model, this.axis) = (model, axis);
        weights = new(model.Note["bias"], model.Note.Remove("bias"));
        var notes = strikes.SelectMany(s => s).SelectMany(s => s.Notes).Select(n => n.Strength).Order().ToArray();
        var usual = notes.Length == 0 ? 0 : notes[notes.Length / 2];
        byBar = strikes.SelectMany(s => s).Where(s => bars[s.Bar].Playing == Playing.Picked).SelectMany(s => Of(s, bars[s.Bar].Grid, usual)).ToLookup(p => p.Bar);
    }

    /// <summary>All that fits a place, likely or not.</summary>
    public IEnumerable<Placed> All => byBar.SelectMany(b => b);

    public IEnumerable<(int Bar, ImmutableArray<Claim<PickedNote>> Notes)> Place(BarRun run)
    {
        var notes = Enumerable.Range(run.First, run.End - run.First).SelectMany(b => byBar[b]).Where(p => p.Sure >= 0.5)
            .GroupBy(p => (p.Bar, p.Start, p.Note.StringIndex)).Select(g => g.MaxBy(p => p.Sure)!).OrderBy(p => p.Bar).ThenBy(p => p.Start).ToList();
        if (notes.Count == 0)
            yield break;
        var standing = Standing.HeardToThePercent(notes.Average(n => n.Sure));
        var spans = new Spans(axis, run);
        var next = notes.GroupBy(n => n.Note.StringIndex).SelectMany(s => s.Zip(s.Skip(1).Append(null))).ToDictionary(p => p.First, p => p.Second);
        foreach (var bar in notes.GroupBy(n => n.Bar))
        {
            yield return (bar.Key, [.. bar.OrderBy(n => n.Start).ThenBy(n => n.Note.StringIndex).Select(n => new Claim<PickedNote>(n.Start,
                spans.Length((n.Bar, n.Start), next[n] is { } after ? (after.Bar, after.Start) : null), n.Note, standing))]);
        }
    }

    private IEnumerable<Placed> Of(Strike strike, Subdivision grid, double usual)
    {
        foreach (var note in strike.Notes)
        {
            var place = axis.PlaceOf(note.Onset.Value);
            var (at, off) = grid.Nearest(place);
            var deviations = off * axis.BeatLengthAt(place) / model.Spread;
            var bar = Strikes.BarAt(axis, at.Value + 1e-6);
            if (Math.Abs(deviations) > Farthest || at.Value >= axis.Bars[bar].EndBeat)
                continue;
            var features = PickedFeatures.Of(note, strike, deviations, usual);
            yield return new(bar, at - Beats.Whole(axis.Bars[bar].FirstBeat), new(note.Place!.StringIndex, note.Place.Fret),
                LogOdds.Chance(weights.LogOdds(features)), features);
        }
    }
}
