using Harkbook.Listening;
using Harkbook.Listening.Checking.Lines;
using Harkbook.Listening.Checking.Notes;
using Harkbook.Listening.Checking.Shapes;
using Harkbook.Listening.Checking.Strokes;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Checks;

/// <summary>Every claim of a right song, and errors planted in it one at a time.</summary>
internal sealed class SongExamples
{
    private readonly Song song;
    private readonly Hearing hearing;
    private readonly string piece;
    private readonly Random random;
    private readonly SongClock clock;
    private readonly Fretboard neck;
    private readonly HeardStarts starts;
    private readonly StrikeCurve curve;
    private readonly List<WrittenNote> notes;

    public SongExamples(Song song, Hearing hearing, string piece, int seed)
    {
        (this.song, this.hearing, this.piece, random) = (song, hearing, piece, new(seed));
        (clock, neck, starts) = (new(song), new(song.Tuning.Value, song.Capo.Value), new(hearing.Evidence.Notes));
        curve = new(hearing.Evidence.Notes);
        notes = [.. SongNotes.Of(song, clock)];
    }

    public IEnumerable<Example> All() => [.. Picked(), .. Unwritten(), .. Shapes(), .. Tunings(), .. Strokes(), .. Holes(), .. Syllables(),
        .. Places()];

    private double Eighth(int bar) => (clock.TimeOf(bar + 1) - clock.TimeOf(bar)).Value / song.Bars.First(b => b.Number == bar).Meter.BarLength.Value / 2;

    private IEnumerable<Example> Picked()
    {
        var claims = song.Bars.SelectMany(bar => bar.Picked.Where(p => p.Value.MidiOn(neck) is not null)
            .Select(p => (Bar: bar.Number, Claim: PickedNotes.ClaimOf(bar, p, clock, neck)))).ToArray();
        return NoteExamples.Right(starts, notes, claims.Select(c => c.Claim), piece).Concat(claims.Where(c => c.Claim.BentBy == 0)
            .SelectMany(c => NoteExamples.Wrong(starts, notes, c.Claim, Eighth(c.Bar), piece, random)));
    }

    private IEnumerable<Example> Unwritten()
    {
        (double, double)[] complete = [.. song.Bars.Where(PickedNotes.IsComplete).Select(b => (clock.TimeOf(b.Number).Value, clock.TimeOf(b.Number + 1).Value))];
        return NoteExamples.Unwritten(starts, notes, hearing, complete, PickedNotes.IsSung(song, clock), piece);
    }

    private IEnumerable<Example> Shapes()
    {
        var struck = song.Bars.SelectMany(b => StruckMoments.Of(b, clock, curve)).ToLookup(s => (s.Shape, s.StringIndex));
        foreach (var shape in song.Shapes.Select(s => s.Shape).Distinct())
        {
            for (var s = 0; s < shape.Frets.Length; s++)
            {
                var moments = StruckMoments.Telling(struck[(shape, s)]);
                if (shape.Frets[s] is not { } fret || moments.Count == 0)
                    continue;
                foreach (var by in new[] { 0, -2, -1, 1, 2 }.Where(by => fret + by >= 0))
                {
                    var midi = neck.MidiAt(s, fret + by);
                    var evidence = new StringEvidence(starts, [.. moments.Select(m => (m.Time, midi, Others(shape, s)))]);
                    yield return new("ShapeString", piece, by == 0 ? "" : Math.Abs(by) == 1 ? "fret off by one" : "fret off by two",
                        evidence.Features(evidence.Rival(d => fret + by + d >= 0).By));
                }
                // Where another string of the shape is written wrong, this one is still right.
                var beside = new StringEvidence(starts,
                    [.. moments.Select(m => (m.Time, neck.MidiAt(s, fret), Others(shape, s).Select(o => o + random.Next(-2, 3)).ToArray()))]);
                yield return new("ShapeString", piece, "", beside.Features(beside.Rival(d => fret + d >= 0).By));
            }
        }
    }

    private int[] Others(Shape shape, int own) => [.. Enumerable.Range(0, shape.Frets.Length).Where(s => s != own && shape.Frets[s] is not null)
        .Select(s => neck.MidiAt(s, shape.Frets[s]!.Value))];

    private IEnumerable<Example> Tunings()
    {
        var struck = song.Bars.SelectMany(b => TuningStrings.Struck(b, clock, neck, curve)).ToLookup(s => s.StringIndex, s => s.Moment);
        for (var s = 0; s < song.Tuning.Value.Count; s++)
        {
            if (!struck[s].Any())
                continue;
            foreach (var by in new[] { 0, -2, -1, 1, 2 })
            {
                yield return Tuned(struck[s], by, by == 0 ? "" : Math.Abs(by) == 1 ? "string a semitone off" : "string a tone off");
                if (by == 0 && random.Next(2) == 0)
                    yield return Tuned(struck[s].Select(m => (m.Time, m.Midi, m.Others.Select(o => o + random.Next(-2, 3)).ToArray())), 0, "");
            }
        }
    }

    private Example Tuned(IEnumerable<(double Time, int Midi, int[] Others)> moments, int by, string error)
    {
        var evidence = new StringEvidence(starts, [.. moments.Select(m => (m.Time, m.Midi + by, m.Others))]);
        return new("TuningString", piece, error, evidence.Features(evidence.Rival(_ => true).By));
    }

    private IEnumerable<Example> Strokes()
    {
        var features = new StrokeFeatures(starts, curve, new(hearing.Evidence.Pulse.Bands), StrokeWeigher.Besides(song, clock));
        var (times, others) = (StrokeWeigher.GuitarTimes(song, clock), StrokeWeigher.OtherTimes(song, clock));
        var right = new StrikeFeatures(curve, starts, times, others);
        foreach (var bar in song.Bars.Where(b => !b.Strums.IsEmpty))
        {
            foreach (var stroke in bar.Strums)
            {
                var claim = Claim(bar, stroke.Start, stroke.Value);
                yield return Struck(features, claim, "");
                yield return Struck(features, claim with { Stroke = stroke.Value == Stroke.Muted ? Stroke.Down : Stroke.Muted }, "muted or not");
                if (stroke.Value == Stroke.Muted)
                    continue;
                var without = new StrikeFeatures(curve, starts, [.. times.Where(t => Math.Abs(t - claim.Time) > 1e-6)], others);
                if (without.Unwritten(claim.Time - 0.06, claim.Time + 0.06)
                    .OrderBy(u => Math.Abs(u.Time - claim.Time)).Select(u => u.Features).FirstOrDefault() is { } left)
                    yield return new("Strike", piece, "stroke left out", left);
                yield return new("Direction", piece, "", features.Direction(claim));
                yield return new("Direction", piece, stroke.Value == Stroke.Down ? "up for down" : "down for up",
                    features.Direction(claim with { Stroke = stroke.Value == Stroke.Down ? Stroke.Up : Stroke.Down }));
            }
            foreach (var (_, found) in right.Unwritten(clock.TimeOf(bar.Number).Value, clock.TimeOf(bar.Number + 1).Value))
                yield return new("Strike", piece, "", found);
            for (var eighth = 0; eighth < 2 * bar.Meter.BarLength.Value; eighth++)
            {
                var place = Harkbook.Units.Beats.Fraction(eighth, 2);
                if (bar.Strums.Any(s => s.Start == place))
                    continue;
                foreach (var stroke in new[] { eighth % 2 == 0 ? Stroke.Down : Stroke.Up, Stroke.Muted })
                    yield return Struck(features, Claim(bar, place, stroke), "too many");
            }
        }
    }

    private Example Struck(StrokeFeatures features, StrokeClaim claim, string error) => claim.Stroke == Stroke.Muted
        ? new("MutedStroke", piece, error, features.Muted(claim)) : new("Stroke", piece, error, features.Struck(claim));

    private IEnumerable<Example> Holes()
    {
        if (song.Harp?.Value.ToHarmonica() is not { } harp || hearing.Lines.Of(LineKind.Harmonica) is null)
            yield break;
        var features = new HoleFeatures(starts, new(hearing.Evidence.Lines, hearing.Evidence.Notes.Hop.Value, LineStarts.Reed), harp);
        foreach (var (bar, blown) in song.Bars.SelectMany(b => b.Harp.Select(h => (b, h))))
        {
            if (!harp.Has(blown.Value))
                continue;
            var at = clock.TimeOf(bar.Number, blown.Start).Value;
            var claim = new HoleClaim(blown.Value, at, clock.TimeOf(bar.Number, blown.Start + blown.Length).Value, [harp.PitchOf(blown.Value).Midi]);
            yield return new("Hole", piece, "", features.Of(claim));
            foreach (var (error, wrong) in new[]
            {
                ("other breath", blown.Value with { Breath = blown.Value.Breath == Breath.Blow ? Breath.Draw : Breath.Blow, Bend = 0 }),
                ("next hole", blown.Value with { Hole = blown.Value.Hole + 1, Bend = 0 }),
                ("next hole", blown.Value with { Hole = blown.Value.Hole - 1, Bend = 0 }),
                ("bend", blown.Value with { Bend = blown.Value.Bend == 0 ? -1 : 0 }),
            })
            {
                if (harp.FindPitch(wrong) is { } pitch && pitch.Midi != harp.PitchOf(blown.Value).Midi)
                    yield return new("Hole", piece, error, features.Of(claim with { Note = wrong, OnSameBreath = [pitch.Midi] }));
            }
            var moved = at + Eighth(bar.Number) * (random.Next(2) == 0 ? 1 : -1);
            if (!bar.Harp.Any(h => Math.Abs(clock.TimeOf(bar.Number, h.Start).Value - moved) < 0.1))
                yield return new("Hole", piece, "eighth off", features.Of(claim with { Onset = moved, End = Math.Max(claim.End, moved + 0.1) }));
        }
    }

    private IEnumerable<Example> Syllables()
    {
        if (hearing.Lines.Of(LineKind.Voice) is not { } voice)
            yield break;
        var sung = song.Bars.SelectMany(b => b.Sung.Select(s => (Bar: b.Number, Time: clock.TimeOf(b.Number, s.Start).Value))).ToArray();
        LineStarts heard = new(hearing.Evidence.Lines, hearing.Evidence.Notes.Hop.Value, LineStarts.Voice);
        double[] onsets = [.. voice.Notes.Select(n => n.Onset.Value).Order()], times = [.. sung.Select(s => s.Time)];
        var right = new SyllableFeatures(heard, onsets, times);
        foreach (var (bar, time) in sung)
        {
            var eighth = Eighth(bar);
            yield return new("Syllable", piece, "", right.Of(time, eighth));
            foreach (var moved in new[] { time - eighth, time + eighth })
            {
                double[] planted = [.. times.Where(t => t != time).Append(moved).Order()];
                if (!times.Any(t => Math.Abs(t - moved) < 0.1))
                    yield return new("Syllable", piece, "eighth off", new SyllableFeatures(heard, onsets, planted).Of(moved, eighth));
            }
        }
    }

    private IEnumerable<Example> Places()
    {
        var right = new PlaceWeigher(song, clock, hearing);
        foreach (var bar in song.Bars)
        {
            foreach (var note in bar.Picked.Where(n => right.IsAsked(bar, n)))
            {
                yield return new("Place", piece, "", right.Features(bar, note));
                if (random.Next(4) > 0)
                    continue;
                var places = neck.PlacesOf(neck.MidiAt(note.Value.StringIndex, note.Value.Fret))
                    .Where(p => p.StringIndex != note.Value.StringIndex && p.Fret < 13).ToArray();
                if (places.Length == 0)
                    continue;
                var place = places[random.Next(places.Length)];
                var wrong = note with { Value = note.Value with { StringIndex = place.StringIndex, Fret = place.Fret } };
                var planted = bar with { Picked = bar.Picked.Replace(note, wrong) };
                var other = new PlaceWeigher(With(planted), clock, hearing);
                if (other.IsAsked(planted, wrong))
                    yield return new("Place", piece, "wrong string", other.Features(planted, wrong));
            }
        }
    }

    private Song With(Bar planted) => song with
    {
        Sections = [.. song.Sections.Select(s => s with { Bars = [.. s.Bars.Select(b => b.Number == planted.Number ? planted : b)] })],
    };

    private StrokeClaim Claim(Bar bar, Harkbook.Units.Beats place, Stroke stroke) => StrokeWeigher.ClaimOf(bar, place, stroke, clock, neck);
}
