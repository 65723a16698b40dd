using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>Weighs every claim of a song or an annotation against what was heard.</summary>
public sealed class Checker
{
    private readonly Hearing hearing;
    private readonly CheckOptions options;
    private readonly NoteWeigher notes;
    private readonly BarWeigher bars;

    public Checker(Hearing hearing, CheckOptions options)
    {
        (this.hearing, this.options) = (hearing, options);
        notes = new(hearing, options);
        bars = new(hearing, options);
    }

    /// <summary>Facts, bars, chords, shapes, picked and harmonica notes of a song, at the times that its anchors give.</summary>
    public CheckResult Check(Song song)
    {
        var clock = new SongClock(song);
        var findings = FactWeigher.Weigh(song, hearing).ToList();
        var level = SongLevel.Of(song, hearing);
        var chords = new ChordUses(song, clock, hearing, options);
        var played = new PlayedNotes(song, clock, hearing, notes, options);
        foreach (var bar in song.Bars)
        {
            findings.Add(bars.Weigh(clock.TimeOf(bar.Number), new(clock.TimeOf(bar.Number), bar.Number, 1), $"bar {bar.Number} starts here",
                level?.HeardBeatsIn(bar.Meter), clock.TimeOf(bar.Number, bar.Meter.BarLength)).Anchoring(song, bar));
            findings.AddRange(chords.Weigh(bar));
            findings.AddRange(played.Weigh(bar));
        }
        return new([.. findings.Select(CheckCalibration.Shipped.Judge)]) { NotAsked = NotAsked.Of(song) };
    }

    /// <summary>The beats, chords and notes of an annotation. Pitches about A440 are moved to the recording's own reference pitch.</summary>
    public CheckResult Check(Annotation claims)
    {
        var offset = Cents.Between(Hertz.A440, hearing.ReferencePitch.Best).Value / 100;
        var played = claims.Notes.Select(n =>
            (Midi: (int)Math.Round(n.Midi - offset), Onset: Seconds.FromSeconds(n.Onset), End: Seconds.FromSeconds(n.End))).ToList();
        var instead = new HeardInstead([.. hearing.Notes.Select(n => new StartedNote(n.Midi, n.Onset))],
            [.. played.Select(n => new StartedNote(n.Midi, n.Onset))], Seconds.FromSeconds(options.OnsetWindow));
        var chords = new ChordWeigher(hearing, options);
        var findings = new List<Finding>();
        foreach (var time in claims.Downbeats)
            findings.Add(bars.Weigh(Seconds.FromSeconds(time), new(Seconds.FromSeconds(time)), "a bar starts here"));
        foreach (var span in claims.Chords.Where(s => s.End > s.Start))
        {
            var (start, end) = (Seconds.FromSeconds(span.Start), Seconds.FromSeconds(span.End));
            if (HarteLabel.TryRead(span.Label, out var chord))
                findings.Add(chords.Weigh(chord, PitchStrengths.Over(hearing.Evidence.Notes, start, end), start, end, new(start)));
        }
        foreach (var (midi, onset, end) in played)
            findings.Add(instead.Told(notes.Weigh(midi, onset, end, Pitch.FromMidi(midi).ToString(), new(onset)), midi));
        return new([.. findings.Select(CheckCalibration.Shipped.Judge).OrderBy(f => f.Where!.Time)]);
    }
}
