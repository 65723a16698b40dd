using System.Globalization;
using System.Text.Json.Nodes;
using Harkbook.Listening;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Proposing;
using Harkbook.Listening.Proposing.Hands;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Training.Hands;

/// <summary>What songs with known truth show of how guitars are played, gathered song by song.</summary>
internal sealed class Seen
{
    private const double Window = 0.07;

    private static readonly string[] Stroke = ["stroke", "muted"], Join = ["joined", "slid"];

    private readonly double[] strummed = new double[6], picked = new double[6];
    private readonly List<(double Downward, bool Down)> directions = [];
    private readonly Dictionary<string, int> missing = [];

    public List<Example> Notes { get; } = [];

    public List<Example> Places { get; } = [];

    public List<Example> Joins { get; } = [];

    public void Add(string piece, Hearing hearing, Song truth)
    {
        var model = PlayingModel.Shipped;
        var draft = SongProposer.Propose(hearing, truth.Title, "take.wav");
        var axis = BeatAxis.Of(hearing.Beats, hearing.Meter.Best, hearing.Tempo.Best);
        var strikes = Strikes.Of(hearing, axis, [.. draft.Bars]);
        var clock = new SongClock(truth);
        var bars = truth.Bars.ToArray();
        Bar TrueBar(int bar) => bars[clock.PlaceOf(Seconds.FromSeconds(axis.TimeOf((axis.Bars[bar].FirstBeat + axis.Bars[bar].EndBeat) / 2.0))).BarNumber - 1];
        var played = axis.Bars.Select((_, b) => TrueBar(b) switch
        {
            { Strums.IsEmpty: false } => (PlayedAs?)PlayedAs.Strummed,
            { Picked.IsEmpty: false } => PlayedAs.Picked,
            _ => null,
        }).ToArray();
        foreach (var strike in strikes.SelectMany(s => s))
        {
            if (played[strike.Bar] is { } kind)
                (kind == PlayedAs.Strummed ? strummed : picked)[Math.Min(6, strike.Strings) - 1]++;
        }
        var (trueNeck, hearingNeck) = (new Fretboard(truth.Tuning.Value, truth.Capo.Value), new Fretboard(hearing.Tuning.Best.Tuning, hearing.Tuning.Best.Capo));
        var read = new PlayedBars(model).Read(axis, strikes);
        var all = truth.Bars.SelectMany(b => b.Picked.Select(p => (Time: clock.TimeOf(b.Number, p.Start).Value, p.Start, p.Value))).ToList();
        foreach (var placed in new PickPlacing(model, hearing, axis, strikes,
            [.. read.Select((b, i) => b with { Playing = played[i] ?? PlayedAs.Strummed })]).All)
        {
            var time = axis.TimeOf(axis.Bars[placed.Bar].FirstBeat + placed.Start.Value);
            var match = all.Where(t => Math.Abs(t.Time - time) < Window && t.Value.StringIndex == placed.Note.StringIndex
                && t.Value.Fret == placed.Note.Fret).Select(t => t.Value).FirstOrDefault();
            Notes.Add(new(placed.Features, match is null ? 0 : 1, piece));
            var sounded = all.Where(t => Math.Abs(t.Time - time) < Window && t.Value.MidiOn(trueNeck) == hearingNeck.MidiAt(placed.Note.StringIndex, placed.Note.Fret))
                .Select(t => t.Value).FirstOrDefault();
            if (placed.Join is { } join && sounded is not null)
                Joins.Add(new(join, sounded.Attack switch { Attack.HammeredOn or Attack.PulledOff => 1, Attack.Slid => 2, _ => 0 }, piece));
        }
        Miss(hearing, truth, all);
        var evidence = new StrokeEvidence(model, hearing);
        var neck = new Fretboard(hearing.Tuning.Best.Tuning, hearing.Tuning.Best.Capo);
        foreach (var bar in Enumerable.Range(0, axis.Bars.Length).Where(b => played[b] == PlayedAs.Strummed))
        {
            var grid = axis.Bars[bar].Meter.IsCompound ? Subdivision.Compound[0] : Subdivision.Simple[0];
            foreach (var place in Enumerable.Range(0, axis.Bars[bar].Meter.BeatsPerBar).SelectMany(b => grid.Places.Select(p => Beats.Whole(b) + p)))
            {
                var time = axis.TimeOf(axis.Bars[bar].FirstBeat + place.Value);
                var pitches = SongNotes.ShapeAt(draft.Bars.ElementAt(bar), place) is { } shape ? SongNotes.Sounding(shape, neck) : [];
                var (number, beat) = clock.PlaceOf(Seconds.FromSeconds(time));
                var near = bars.Skip(Math.Max(0, number - 2)).Take(3).SelectMany(b => b.Strums.Select(s => (clock.TimeOf(b.Number, s.Start).Value, s.Value)))
                    .Where(s => Math.Abs(s.Item1 - time) < Window).ToArray();
                Places.Add(new(evidence.Features(time, pitches), near.Length == 0 ? 0 : near[0].Item2 == Harkbook.Music.Songs.Stroke.Muted ? 2 : 1, piece));
                if (near.Length > 0 && near[0].Item2 != Harkbook.Music.Songs.Stroke.Muted)
                    directions.Add((evidence.Downward(time, pitches), near[0].Item2 == Harkbook.Music.Songs.Stroke.Down));
            }
        }
    }

    /// <summary>Why true notes aren't among the heard: nothing of their pitch starts, or it was put on another string.</summary>
    private void Miss(Hearing hearing, Song truth, List<(double Time, Beats Start, PickedNote Value)> all)
    {
        var neck = new Fretboard(truth.Tuning.Value, truth.Capo.Value);
        foreach (var (time, _, note) in all)
        {
            var heard = hearing.Notes.Where(n => Math.Abs(n.Onset.Value - time) < Window && n.Midi == note.MidiOn(neck)).ToArray();
            var why = heard.Length == 0 ? "not heard" : heard.All(n => n.Place is null) ? "on no string"
                : heard.Any(n => n.Place?.StringIndex == note.StringIndex && n.Place.Fret == note.Fret) ? "right" : "other string";
            missing[why] = missing.GetValueOrDefault(why) + 1;
        }
    }

    public void Report(TextWriter output)
    {
        output.WriteLine(string.Join(", ", missing.Select(m => $"{m.Key} {m.Value}")));
        Crossed(output, "note", Notes, 2);
        Crossed(output, "stroke", Places, 3);
        Crossed(output, "join", Joins, 3);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"direction by order alone: {directions.Count(d => d.Downward > 0 == d.Down) / (double)directions.Count:0.000} of {directions.Count}"));
    }

    public void Write(JsonObject numbers)
    {
        numbers["strummed"] = Shares(strummed);
        numbers["picked"] = Shares(picked);
        numbers["order"] = Math.Round(SoftmaxFit.Of([.. directions.Select(d => new Example([new("downward", d.Downward)], d.Down ? 1 : 0, ""))], 2)[0]["downward"], 4);
        var weights = numbers["weights"]!.AsObject();
        weights["note"] = Plain(SoftmaxFit.Of(Notes, 2)[0], 0);
        foreach (var (name, fitted, share) in Stroke.Zip(SoftmaxFit.Of(Places, 3), Enumerable.Range(1, 2)))
            weights[name] = Plain(fitted, Math.Log(Places.Count(p => p.Kind == share) / (double)Places.Count(p => p.Kind == 0)));
        foreach (var (name, fitted) in Join.Zip(SoftmaxFit.Of(Joins, 3)))
            weights[name] = Plain(fitted, 0);
    }

    /// <param name="prior">What the bias says by frequency alone, which the user of the weights says otherwise.</param>
    private static JsonObject Plain(Dictionary<string, double> weights, double prior)
    {
        var node = new JsonObject();
        foreach (var (name, value) in weights)
            node[name] = Math.Round(name == "bias" ? value - prior : value, 4);
        return node;
    }

    private static JsonArray Shares(double[] counts) => [.. counts.Select(c => JsonValue.Create(Math.Round((c + 1) / (counts.Sum() + counts.Length), 4)))];

    /// <summary>Fitted on every other piece, judged on the rest.</summary>
    private static void Crossed(TextWriter output, string name, List<Example> examples, int kinds)
    {
        var pieces = examples.Select(e => e.Piece).Distinct().Order(StringComparer.Ordinal).Select((p, i) => (p, i)).ToDictionary(p => p.p, p => p.i % 2);
        var judged = new List<(Example Example, double[] Chances)>();
        foreach (var half in new[] { 0, 1 })
        {
            var weights = SoftmaxFit.Of([.. examples.Where(e => pieces[e.Piece] != half)], kinds);
            judged.AddRange(examples.Where(e => pieces[e.Piece] == half).Select(e => (e, SoftmaxFit.Chances(weights, e.Features))));
        }
        output.WriteLine($"{name}: {examples.Count}, right "
            + string.Create(CultureInfo.InvariantCulture, $"{judged.Count(j => Array.IndexOf(j.Chances, j.Chances.Max()) == j.Example.Kind) / (double)judged.Count:0.000}"));
        for (var k = 0; k < kinds; k++)
        {
            var found = judged.Where(j => Array.IndexOf(j.Chances, j.Chances.Max()) == k).ToArray();
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  kind {k}: {examples.Count(e => e.Kind == k)} true, {found.Length} found, right "
                + $"{found.Count(f => f.Example.Kind == k)}; sure {(found.Length > 0 ? found.Average(f => f.Chances[k]) : 0):0.000}"));
        }
    }
}
