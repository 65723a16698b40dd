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
    private (ImmutableArray<HeardBeat> Beats, GridChords Chords)? lastGrid;

    public Checker(Hearing hearing, CheckOptions options)
    {
        (this.hearing, this.options) = (hearing, options);
        notes = new(hearing, options);
    }

    /// <summary>Facts, bars, sections, chords, shapes, picked and harmonica notes of a song, at the times that its anchors give.</summary>
    public CheckResult Check(Song song)
    {
        var clock = new SongClock(song);
        var findings = FactWeigher.Weigh(song, hearing).ToList();
        var chords = new ChordUses(song, clock, hearing, Grid(ClaimedBar.BeatsOf(song, clock)), options);
        var played = new PlayedNotes(song, clock, hearing, notes, options);
        var bars = new BarWeigher(hearing).Weigh(ClaimedBar.Of(song, clock)).ToDictionary(f => f.Where!.Bar!.Value);
        var sections = SectionWeigher.Weigh(song, clock, [.. chords.Chords]).ToLookup(f => f.Where!.Bar!.Value);
        foreach (var bar in song.Bars)
        {
            findings.AddRange(sections[bar.Number]);
            findings.Add(bars[bar.Number].Anchoring(song, bar));
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
        var findings = new BarWeigher(hearing).Weigh(Bars(claims)).Concat(Chords(claims)).ToList();
        foreach (var (midi, onset, end) in played)
            findings.Add(instead.Told(notes.Weigh(midi, onset, end, Pitch.FromMidi(midi).ToString(), new(onset)), midi));
        return new([.. findings.Select(CheckCalibration.Shipped.Judge).OrderBy(f => f.Where!.Time)]);
    }

    private IEnumerable<Finding> Chords(Annotation claims)
    {
        var spans = claims.Chords.Where(s => s.End > s.Start).ToList();
        if (spans.Count == 0)
            yield break;
        var weigher = new ChordWeigher(Grid(BeatsOf(claims)));
        foreach (var span in spans)
        {
            if (HarteLabel.TryRead(span.Label, out var chord))
                yield return weigher.Weigh(chord, Seconds.FromSeconds(span.Start), Seconds.FromSeconds(span.End), null, new(Seconds.FromSeconds(span.Start)));
        }
    }

    private static ImmutableArray<ClaimedBar> Bars(Annotation claims)
    {
        var whole = claims.Beats.Where(b => b.PositionInBar is not null).Select(b => b.PositionInBar!.Value).DefaultIfEmpty(1).Max();
        return [.. claims.Downbeats.Select(Seconds.FromSeconds).Select(t => new ClaimedBar(t, whole, new(t), "a bar starts here"))];
    }

    /// <summary>The annotation's beats; the heard ones where it has none.</summary>
    private ImmutableArray<HeardBeat> BeatsOf(Annotation claims) =>
        claims.Beats.Length < 4 ? hearing.Beats : [.. claims.Beats.Select(b => new HeardBeat(Seconds.FromSeconds(b.Time), b.PositionInBar ?? 2, 1))];

    /// <summary>Weighing chords takes longer than all else, so the last grid is kept for the next check.</summary>
    private GridChords Grid(ImmutableArray<HeardBeat> beats)
    {
        if (lastGrid is not { } last || !last.Beats.AsSpan().SequenceEqual(beats.AsSpan()))
            lastGrid = last = (beats, GridChords.Of(hearing.Evidence.Notes, beats));
        return last.Chords;
    }
}
