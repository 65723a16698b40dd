using System.Collections.Immutable;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>A heard note at a place of a bar.</summary>
/// <param name="Sure">How sure string, fret and place are (0–1).</param>
/// <param name="Features">What speaks for it.</param>
/// <param name="Join">What speaks for its being sounded from the note before on its string; null where there is none.</param>
internal sealed record PlacedNote(int Bar, Beats Start, PickedNote Note, double Sure, Feature[] Features, Feature[]? Join);

/// <summary>Lays picked notes on the places of picked bars. A note that fits no place, and one that is likelier wrong than right, isn't written.</summary>
internal sealed class PickPlacing
{
    private readonly PlayingModel model;
    private readonly BeatAxis axis;
    private readonly JoinReach reach;
    private readonly ILookup<int, PlacedNote> byBar;

    public PickPlacing(PlayingModel model, Hearing hearing, BeatAxis axis, ILookup<int, Strike> strikes, ImmutableArray<PlayedBar> bars)
    {
        (this.model, this.axis) = (model, axis);
        var guitar = hearing.Tuning.Best;
        reach = new(Hand.On(guitar.Tuning, hearing.Claims.Reach), guitar.Capo);
        var joins = new JoinedNotes(model, new(hearing.Evidence.Notes, new(hearing.Evidence.Pulse.Bands)), reach);
        var all = strikes.SelectMany(s => s).OrderBy(s => s.Time).ToArray();
        var strengths = all.SelectMany(s => s.Notes).Select(n => n.Strength).Order().ToArray();
        var usual = strengths.Length == 0 ? 0 : strengths[strengths.Length / 2];
        byBar = all.SelectMany(s => joins.Of(s).Where(_ => bars[s.Bar].Playing == PlayedAs.Picked).Select(j => Of(s, j, bars[s.Bar].Grid, usual)))
            .OfType<PlacedNote>().ToLookup(p => p.Bar);
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
        notes = [.. notes.Select(n => Joined(n, notes.LastOrDefault(b => b.Note.StringIndex == n.Note.StringIndex
            && (b.Bar, b.Start).CompareTo((n.Bar, n.Start)) < 0), reach)).OfType<PlacedNote>()];
        var spans = new Spans(axis, run);
        var next = notes.GroupBy(n => n.Note.StringIndex).SelectMany(s => s.Zip(s.Skip(1).Append(null))).ToDictionary(p => p.First, p => p.Second);
        foreach (var bar in notes.GroupBy(n => n.Bar))
        {
            yield return (bar.Key, [.. bar.OrderBy(n => n.Start).ThenBy(n => n.Note.StringIndex).Select(n => new Claim<PickedNote>(n.Start,
                spans.Length((n.Bar, n.Start), next[n] is { } after ? (after.Bar, after.Start) : null), n.Note, standing))]);
        }
    }

    /// <summary>
    /// A note is joined to what is written before it on its string: up from a lower fret, down from a higher one, and else picked. Null where a finger
    /// doesn't reach it from there.
    /// </summary>
    internal static PlacedNote? Joined(PlacedNote note, PlacedNote? before, JoinReach reach)
    {
        if (note.Note.Attack == Attack.Picked)
            return note;
        if (before is null || before.Note.Fret == note.Note.Fret || note.Bar - before.Bar > 1)
            return note with { Note = note.Note with { Attack = Attack.Picked } };
        if (note.Note.Attack == Attack.Slid)
            return note;
        return reach.Covers(note.Note.StringIndex, before.Note.Fret, note.Note.Fret)
            ? note with { Note = note.Note with { Attack = note.Note.Fret > before.Note.Fret ? Attack.HammeredOn : Attack.PulledOff } }
            : null;
    }

    private PlacedNote? Of(Strike strike, JoinedNote joined, Subdivision grid, double usual)
    {
        var note = joined.Note;
        var place = axis.PlaceOf(note.Onset.Value);
        var (at, _) = grid.Nearest(place);
        var bar = Strikes.BarAt(axis, at.Value + 1e-6);
        if (at.Value >= axis.Bars[bar].EndBeat)
            return null;
        var features = PickedFeatures.Of(note, strike, usual);
        var sure = LogOdds.Chance(model.Note.LogOdds(features)) * model.ChanceOfPlace(grid, place, axis.BeatLengthAt(place));
        var picked = new PickedNote(note.Place!.StringIndex, note.Place.Fret, joined.Attack);
        return new(bar, at - Beats.Whole(axis.Bars[bar].FirstBeat), picked, sure, features, joined.Join);
    }
}
