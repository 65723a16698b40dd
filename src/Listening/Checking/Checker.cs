using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Instruments;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>Weighs every claim of a song or an annotation against what was heard.</summary>
public sealed class Checker
{
    private readonly Hearing hearing;
    private readonly NoteWeigher notes;
    private readonly BarWeigher bars;
    private readonly ChordWeigher chords;
    private readonly ShapeWeigher shapes;

    public Checker(Hearing hearing, CheckOptions options)
    {
        this.hearing = hearing;
        notes = new(hearing, options);
        bars = new(hearing, options);
        chords = new(hearing, options);
        shapes = new(options);
    }

    /// <summary>Facts, bars, chords, shapes, picked and harmonica notes of a song, at the times that its anchors give.</summary>
    public CheckResult Check(Song song)
    {
        var clock = new SongClock(song);
        var findings = FactWeigher.Weigh(song, hearing).ToList();
        var level = SongLevel.Of(song, hearing);
        var harp = song.Harp is { } reference ? reference.Value.ToHarmonica() : null;
        foreach (var bar in song.Bars)
        {
            findings.Add(bars.Weigh(clock.TimeOf(bar.Number), new(clock.TimeOf(bar.Number), bar.Number, 1), $"bar {bar.Number} starts here",
                level?.HeardBeatsIn(bar.Meter), clock.TimeOf(bar.Number, bar.Meter.BarLength)).Anchoring(song, bar));
            foreach (var chord in bar.Chords)
                findings.AddRange(Weigh(song, clock, bar, chord));
            foreach (var picked in bar.Picked)
            {
                if (PitchOf(song, picked.Value) is { } pitch)
                    findings.Add(Note(clock, bar, picked.Start, picked.Length, pitch, HowPlayed(song, picked.Value), BentBy(picked.Value)));
            }
            foreach (var blown in bar.Harp)
            {
                if (harp?.FindPitch(blown.Value) is { } pitch)
                    findings.Add(Note(clock, bar, blown.Start, blown.Length, pitch, "harmonica " + blown.Value));
            }
        }
        return new([.. findings]);
    }

    /// <summary>The beats, chords and notes of an annotation. Pitches about A440 are moved to the recording's own reference pitch.</summary>
    public CheckResult Check(Annotation claims)
    {
        var offset = Cents.Between(Hertz.A440, hearing.ReferencePitch.Best).Value / 100;
        var findings = new List<Finding>();
        foreach (var time in claims.Downbeats)
            findings.Add(bars.Weigh(Seconds.FromSeconds(time), new(Seconds.FromSeconds(time)), "a bar starts here"));
        foreach (var span in claims.Chords.Where(s => s.End > s.Start))
        {
            var (start, end) = (Seconds.FromSeconds(span.Start), Seconds.FromSeconds(span.End));
            if (HarteLabel.TryRead(span.Label, out var chord))
                findings.Add(chords.Weigh(chord, PitchStrengths.Over(hearing.Evidence, start, end), start, end, new(start)));
        }
        foreach (var note in claims.Notes)
        {
            var midi = (int)Math.Round(note.Midi - offset);
            var (onset, end) = (Seconds.FromSeconds(note.Onset), Seconds.FromSeconds(note.End));
            findings.Add(notes.Weigh(midi, onset, end, Pitch.FromMidi(midi).ToString(), new(onset)));
        }
        return new([.. findings.OrderBy(f => f.Where!.Time)]);
    }

    private IEnumerable<Finding> Weigh(Song song, SongClock clock, Bar bar, Claim<ChordUse> claim)
    {
        var (start, end) = (clock.TimeOf(bar.Number, claim.Start), clock.TimeOf(bar.Number, claim.Start + claim.Length));
        var where = new Place(start, bar.Number, claim.Start.Value + 1);
        var sounding = PitchStrengths.Over(hearing.Evidence, start, end);
        yield return chords.Weigh(claim.Value.Chord, sounding, start, end, where).Naming(bar, claim);
        if (claim.Value.Shape is { } shape)
            yield return shapes.Weigh(shape, song.Tuning.Value, song.Capo.Value, claim.Value.Chord, sounding, where, $"{claim.Value.Name} as {shape}").Fretting(song, claim.Value);
    }

    /// <param name="what">How it is played: "string 3 fret 2" (string 1 is the thin one, frets count from the capo), "harmonica -4".</param>
    private Finding Note(SongClock clock, Bar bar, Beats start, Beats length, Pitch pitch, string what, int bentBy = 0)
    {
        var (onset, end) = (clock.TimeOf(bar.Number, start), clock.TimeOf(bar.Number, start + length));
        return notes.Weigh(pitch.Midi, onset, end, $"{what}, {pitch}", new(onset, bar.Number, start.Value + 1), bentBy);
    }

    /// <summary>The pitch that is meant; null for a muted note, which has none to weigh.</summary>
    private static Pitch? PitchOf(Song song, PickedNote note) =>
        note.MidiOn(new(song.Tuning.Value, song.Capo.Value)) is { } midi ? Pitch.FromMidi(midi, song.Key.Value.Centre) : null;

    private static string HowPlayed(Song song, PickedNote note) =>
        $"string {song.Tuning.Value.Count - note.StringIndex} {(note.TouchedAt is { } touch ? $"harmonic at fret {touch}" : $"fret {note.Fret}")}{(note.Bend.IsNone ? "" : " bent")}";

    private static int BentBy(PickedNote note) => (int)Math.Ceiling(note.Bend.By.Value / 100 - 0.5);
}
