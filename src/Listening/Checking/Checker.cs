using System.Collections.Immutable;
using Harkbook.Listening.Checking.Lines;
using Harkbook.Listening.Checking.Notes;
using Harkbook.Listening.Checking.Shapes;
using Harkbook.Listening.Checking.Strokes;
using Harkbook.Listening.Checking.Weighing;
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
    private readonly HeardStarts starts;
    private readonly StrikeCurve curve;
    private (ImmutableArray<HeardBeat> Beats, GridChords Chords)? lastGrid;

    /// <summary>
    /// Whether it also tells of heard notes and strokes that aren't written and hardly were left out, as whoever calibrates it asks; they aren't claims
    /// that anybody made.
    /// </summary>
    public bool TellsAll { get; init; }

    public Checker(Hearing hearing)
    {
        this.hearing = hearing;
        starts = new(hearing.Evidence.Notes);
        curve = new(hearing.Evidence.Notes);
    }

    /// <summary>All that a song claims, at the times that its anchors give.</summary>
    public CheckResult Check(Song song)
    {
        var clock = new SongClock(song);
        var chords = new ChordUses(song, clock, Grid(ClaimedBar.BeatsOf(song, clock)));
        var bars = new BarWeigher(hearing).Weigh(ClaimedBar.Of(song, clock)).ToDictionary(f => f.Where!.Bar!.Value);
        var sections = SectionWeigher.Weigh(song, clock, [.. chords.Chords]).ToLookup(f => f.Where!.Bar!.Value);
        var shapes = new ShapeStrings(song, clock, starts, curve).Weigh().ToLookup(f => f.Where!.Bar!.Value);
        var parts = Parts(song, clock);
        List<Finding> findings = [.. FactWeigher.Weigh(song, hearing), .. new TuningStrings(song, clock, starts, curve).Weigh()];
        foreach (var bar in song.Bars)
        {
            findings.AddRange(sections[bar.Number]);
            findings.Add(bars[bar.Number].Anchoring(song, bar));
            findings.AddRange(chords.Weigh(bar));
            findings.AddRange(shapes[bar.Number]);
            findings.AddRange(parts.SelectMany(part => part(bar)));
        }
        return new(Judged(findings.Select(f =>
            f.Kind == ClaimKind.Harp ? HarpHoles.Tell(f, song, clock, hearing, findings) : f))) { NotAsked = NotAsked.Of(song, hearing) };
    }

    private ImmutableArray<Finding> Judged(IEnumerable<Finding> findings) =>
        [.. CheckCalibration.Shipped.Judge([.. findings], hearing.Recording.Length.Value / 60).Where(f => TellsAll
            || f is not { Kind: ClaimKind.Silence or ClaimKind.StillHand, Verdict: Verdict.Supported })];

    /// <summary>What weighs the parts that are written out note by note, a bar at a time.</summary>
    private ImmutableArray<Func<Bar, IEnumerable<Finding>>> Parts(Song song, SongClock clock)
    {
        var holes = song.Harp is { } harp ? new HoleWeigher(starts, hearing, harp.Value.ToHarmonica(), clock) : null;
        var syllables = SyllableWeigher.Of(song, clock, hearing);
        var tune = new TuneWeigher(song, clock, starts, hearing);
        return
        [
            new StrokeWeigher(song, clock, starts, curve, new(hearing.Evidence.Pulse.Bands)).Weigh,
            new PickedNotes(song, clock, starts, new(SongNotes.Of(song, clock)), hearing).Weigh,
            new PlaceWeigher(song, clock, hearing).Weigh,
            bar => holes?.Weigh(bar) ?? [],
            bar => syllables?.Weigh(bar) ?? [],
            tune.Weigh,
        ];
    }

    /// <summary>The beats, chords and notes of an annotation. Pitches about A440 are moved to the recording's own reference pitch.</summary>
    public CheckResult Check(Annotation claims)
    {
        var offset = Cents.Between(Hertz.A440, hearing.ReferencePitch.Best).Value / 100;
        var notes = claims.Notes.Select(n => new NoteClaim((int)Math.Round(n.Midi - offset), n.Onset, n.End));
        IEnumerable<Finding> findings =
            [.. new BarWeigher(hearing).Weigh(Bars(claims)), .. Chords(claims), .. AnnotatedNotes.Weigh([.. notes], starts, hearing)];
        return new(Judged(findings.OrderBy(f => f.Where!.Time)));
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
