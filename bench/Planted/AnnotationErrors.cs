using System.Collections.Immutable;
using Harkbook.Listening.Checking;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;

namespace Harkbook.Bench.Planted;

/// <summary>Errors in what another program's file or a reference says of a recording.</summary>
internal sealed class AnnotationErrors(Annotation right, Random chance)
{
    private const double Near = 0.09;

    /// <summary>How far off the beat a bar line is put that is wrong by less than one, in beats.</summary>
    private const double Part = 0.4;

    private static readonly ClaimKind[] aNote = [ClaimKind.Note, ClaimKind.PlaceOnNeck];
    private static readonly ClaimKind[] anything = [.. Enum.GetValues<ClaimKind>().Where(k => k > ClaimKind.Bar)];

    private readonly double beat = right.Beats.Length > 2
        ? right.Beats.Zip(right.Beats.Skip(1), (a, b) => b.Time - a.Time).Order().ElementAt(right.Beats.Length / 2) : 0.5;

    public IEnumerable<PlantedError> All() => right.Notes.SelectMany(Notes).Concat(Bars()).Concat(right.Chords.SelectMany(Chords)).Concat(Swapped());

    private static Func<Finding, bool> At(double time) => f => f.Where is { } place && Math.Abs(place.Time.Value - time) < Near;

    private static Func<Finding, bool> At(double time, double midi) =>
        f => At(time)(f) && (f.Kind == ClaimKind.Silence || f.Claim.Contains(Named(midi), StringComparison.Ordinal)
            || f.Claim.Contains(Named(midi, -3), StringComparison.Ordinal));

    private static string Named(double midi, int centre = 2) => Pitch.FromMidi((int)Math.Round(midi), centre).ToString();

    private IEnumerable<PlantedError> Notes(ScoredNote note)
    {
        var off = note with { Midi = note.Midi + ((int[])[-2, -1, 1, 2])[chance.Next(4)] };
        if (!Sounds(off))
            yield return Put("note a semitone or two off", aNote, note, off, At(off.Onset, off.Midi), Named(note.Midi), Named(note.Midi, -3));
        var octave = note with { Midi = note.Midi + (chance.Next(2) == 0 ? 12 : -12) };
        if (!Sounds(octave))
            yield return Put("note an octave off", aNote, note, octave, At(octave.Onset, octave.Midi), Named(note.Midi), Named(note.Midi, -3));
        yield return Put("note missing", [ClaimKind.Silence], note, null, At(note.Onset), Named(note.Midi), Named(note.Midi, -3));
        var many = note with { Onset = note.Onset + beat / 2, End = note.End + beat / 2, Midi = note.Midi + ((int[])[-7, -5, -4, 3, 5, 7])[chance.Next(6)] };
        if (!Sounds(many))
            yield return Put("note too many", aNote, many, many, At(many.Onset, many.Midi));
        var moved = note with { Onset = note.Onset + (chance.Next(2) == 0 ? beat / 2 : -beat / 2), End = note.End };
        if (moved.Onset > 0 && moved.Onset < moved.End - 0.05 && !Sounds(moved, note))
            yield return Put("note an eighth off", [.. aNote, ClaimKind.Silence], note, moved, f =>
                At(moved.Onset, moved.Midi)(f) || (f.Kind == ClaimKind.Silence && At(note.Onset)(f)));
    }

    /// <summary>Whether another note of this pitch starts near.</summary>
    private bool Sounds(ScoredNote note, ScoredNote? but = null) =>
        right.Notes.Any(n => n != but && Math.Abs(n.Midi - note.Midi) < 0.5 && Math.Abs(n.Onset - note.Onset) < Near);

    private static PlantedError Put(string kind, ClaimKind[] by, Annotation wrong, Func<Finding, bool> isAt, params string[] truth) =>
        new(kind, by, isAt) { Annotation = wrong, Truth = truth };

    private PlantedError Put(string kind, ClaimKind[] by, ScoredNote old, ScoredNote? put, Func<Finding, bool> isAt, params string[] truth) =>
        Put(kind, by, right with { Notes = [.. right.Notes.Where(n => n != old).Concat(put is null ? [] : [put]).OrderBy(n => n.Onset)] }, isAt, truth);

    private IEnumerable<PlantedError> Bars() =>
        from i in Enumerable.Range(1, Math.Max(0, right.Beats.Length - 2))
        where right.Beats[i].PositionInBar == 1
        let to = i + (chance.Next(2) == 0 ? 1 : -1)
        let beats = right.Beats.SetItem(i, right.Beats[i] with { PositionInBar = right.Beats[to].PositionInBar }).SetItem(to,
            right.Beats[to] with { PositionInBar = 1 })
        let off = right.Beats[i].Time + Part * (right.Beats[to].Time - right.Beats[i].Time)
        let truth = $"{right.Beats[i].Time:0.000}"
        from error in (PlantedError[])
        [
            Put("bar line a beat off", [ClaimKind.Bar], right with { Beats = beats }, At(right.Beats[to].Time), truth),
            Put("bar line off the beat", [ClaimKind.Bar], right with { Beats = right.Beats.SetItem(i, right.Beats[i] with { Time = off }) }, At(off), truth),
        ]
        select error;

    private IEnumerable<PlantedError> Chords(AnnotatedSpan span) =>
        HarteLabel.TryRead(span.Label, out var chord) && !chord.IsNone && span.End - span.Start > 0.3
            ? ChordErrors.Wrong(chord, chance).Select(w => Put(w.Kind, [ClaimKind.Chord],
                right with { Chords = right.Chords.Replace(span, span with { Label = HarteLabel.Write(w.Chord) }) }, At(span.Start), chord.ToString()))
            : [];

    /// <summary>Notes and chords of two neighbouring bars, one in the other's place; bars alike are not swapped.</summary>
    private IEnumerable<PlantedError> Swapped()
    {
        var lines = right.Downbeats.ToArray();
        for (var i = 0; i + 2 < lines.Length; i++)
        {
            var (a, b, end) = (lines[i], lines[i + 1], lines[i + 2]);
            if (Math.Abs(b - a - (end - b)) > 0.15 * (b - a) || Pitches(a, b).SetEquals(Pitches(b, end)))
                continue;
            yield return Put("two bars swapped", anything, right with
            {
                Notes = [.. right.Notes.Select(n => Moved(n.Onset) is var by && by != 0 ? n with { Onset = n.Onset + by, End = n.End + by } : n)
                    .OrderBy(n => n.Onset)],
                Chords = [.. right.Chords.Select(c => Moved(c.Start) is var by && by != 0 && Moved(c.End - 0.01) == by
                    ? c with { Start = c.Start + by, End = c.End + by } : c).OrderBy(c => c.Start)],
            }, f => f.Where is { } place && place.Time.Value >= a - 0.05 && place.Time.Value < end);

            double Moved(double time) => time >= a && time < b ? b - a : time >= b && time < end ? a - b : 0;
        }
    }

    private HashSet<double> Pitches(double from, double to) =>
        [.. right.Notes.Where(n => n.Onset >= from && n.Onset < to).Select(n => Math.Round(n.Midi) % 12)];
}
