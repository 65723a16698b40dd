using System.Collections.Immutable;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>A heard note at a place of a bar.</summary>
/// <param name="Off">How far it lies from the place, in seconds.</param>
/// <param name="Sure">How sure string, fret and place are (0–1).</param>
/// <param name="Features">What speaks for it.</param>
/// <param name="Join">What speaks for its being sounded from the note before on its string; null where it can't be.</param>
internal sealed record PlacedNote(int Bar, Beats Start, PickedNote Note, double Off, double Sure, Feature[] Features, Feature[]? Join);

/// <summary>Lays picked notes on the places of picked bars. A note that fits no place, and one that is likelier wrong than right, isn't written.</summary>
internal sealed class PickPlacing
{
    /// <summary>So many deviations from its place a note fits none.</summary>
    private const double Farthest = 4;

    private readonly PlayingModel model;
    private readonly BeatAxis axis;
    private readonly JoinFeatures joins;
    private readonly Dictionary<HeardNote, HeardNote> before = new(ReferenceEqualityComparer.Instance);
    private readonly double usual;
    private readonly ILookup<int, PlacedNote> byBar;

    public PickPlacing(PlayingModel model, Hearing hearing, BeatAxis axis, ILookup<int, Strike> strikes, ImmutableArray<PlayedBar> bars)
    {
        (this.model, this.axis, joins) = (model, axis, new(hearing.Evidence.Notes, new(hearing.Evidence.Pulse.Bands)));
        var notes = strikes.SelectMany(s => s).SelectMany(s => s.Notes).OrderBy(n => n.Onset).ToArray();
        foreach (var ofString in notes.GroupBy(n => n.Place!.StringIndex))
        {
            foreach (var (first, next) in ofString.Zip(ofString.Skip(1)))
                before[next] = first;
        }
        usual = notes.Length == 0 ? 0 : notes.Select(n => n.Strength).Order().ElementAt(notes.Length / 2);
        byBar = strikes.SelectMany(s => s).Where(s => bars[s.Bar].Playing == Playing.Picked).SelectMany(s => Of(s, bars[s.Bar].Grid)).ToLookup(p => p.Bar);
    }

    /// <summary>All that fits a place, likely or not.</summary>
    public IEnumerable<PlacedNote> All => byBar.SelectMany(b => b);

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

    private IEnumerable<PlacedNote> Of(Strike strike, Subdivision grid)
    {
        foreach (var note in strike.Notes)
        {
            var place = axis.PlaceOf(note.Onset.Value);
            var (at, off) = grid.Nearest(place);
            var seconds = off * axis.BeatLengthAt(place);
            var bar = Strikes.BarAt(axis, at.Value + 1e-6);
            if (Math.Abs(seconds) > Farthest * model.Spread || at.Value >= axis.Bars[bar].EndBeat)
                continue;
            var features = PickedFeatures.Of(note, strike, seconds / model.Spread, usual);
            var join = before.GetValueOrDefault(note) is { } first ? joins.Of(first, note, strike.Notes.Length) : null;
            yield return new(bar, at - Beats.Whole(axis.Bars[bar].FirstBeat), new(note.Place!.StringIndex, note.Place.Fret, AttackOf(first: before
                .GetValueOrDefault(note), note, join)), seconds, LogOdds.Chance(model.Note.LogOdds(features)), features, join);
        }
    }

    /// <summary>The likeliest of being picked, joined to the note before by hammering or pulling, and slid to.</summary>
    private Attack AttackOf(HeardNote? first, HeardNote note, Feature[]? join)
    {
        if (join is null)
            return Attack.Picked;
        var (joined, slid) = (model.Joined.LogOdds(join), model.Slid.LogOdds(join));
        return Math.Max(joined, slid) <= 0 ? Attack.Picked : slid > joined ? Attack.Slid
            : note.Place!.Fret > first!.Place!.Fret ? Attack.HammeredOn : Attack.PulledOff;
    }
}
