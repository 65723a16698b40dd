using Harkbook.Listening.Checking.Notes;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking.Strokes;

/// <summary>
/// Weighs written strokes against nothing being struck there, and against the other direction, by the order in which the strings speak; and that nothing is
/// struck besides, in bars that have strokes.
/// </summary>
internal sealed class StrokeWeigher
{
    private readonly Song song;
    private readonly SongClock clock;
    private readonly Fretboard neck;
    private readonly StrokeFeatures features;
    private readonly StrikeFeatures strikes;
    private readonly WeigherModel struck = WeigherModel.Of("Stroke"), muted = WeigherModel.Of("MutedStroke");
    private readonly WeigherModel strike = WeigherModel.Of("Strike");
    private readonly StrokeDirection direction;
    private readonly double misled;

    public StrokeWeigher(Song song, SongClock clock, HeardStarts starts, StrikeCurve curve, NoiseCurve noise)
    {
        (this.song, this.clock, neck) = (song, clock, new(song.Tuning.Value, song.Capo.Value));
        features = new(starts, curve, noise, Besides(song, clock));
        direction = new(features);
        misled = ShareMisled();
        strikes = new(curve, starts, GuitarTimes(song, clock), OtherTimes(song, clock));
    }

    /// <summary>What starts besides the strokes.</summary>
    public static WrittenNotes Besides(Song song, SongClock clock)
    {
        var neck = new Fretboard(song.Tuning.Value, song.Capo.Value);
        return new(song.Bars.SelectMany(b => SongNotes.Picked(b, neck, clock).Concat(SongNotes.Blown(b, song.Harp?.Value.ToHarmonica(), clock))));
    }

    /// <summary>When the guitar is written to start anything.</summary>
    public static double[] GuitarTimes(Song song, SongClock clock) =>
        Times(song, clock, b => b.Strums.Select(s => s.Start).Concat(b.Picked.Select(p => p.Start)));

    /// <summary>When a harmonica or a singer is.</summary>
    public static double[] OtherTimes(Song song, SongClock clock) => Times(song, clock, b => b.Harp.Select(h => h.Start).Concat(b.Sung.Select(s => s.Start)));

    private static double[] Times(Song song, SongClock clock, Func<Bar, IEnumerable<Beats>> starts) =>
        [.. song.Bars.SelectMany(b => starts(b).Select(s => clock.TimeOf(b.Number, s).Value)).Order()];

    public static StrokeClaim ClaimOf(Bar bar, Beats place, Stroke stroke, SongClock clock, Fretboard neck) => new(
        clock.TimeOf(bar.Number, place).Value, stroke,
        SongNotes.ShapeAt(bar, place) is { } shape ? SongNotes.Sounding(shape, neck) : []);

    public IEnumerable<Finding> Weigh(Bar bar) => bar.Strums.IsEmpty ? [] : bar.Strums.Select(s => Weigh(bar, s)).Concat(Unwritten(bar));

    /// <summary>The share of the song's strokes in which the order of the strings misleads.</summary>
    private double ShareMisled() => StrokeDirection.ShareMisled(
        from section in song.Sections
        from place in section.Bars.SelectMany(b => b.Strums.Select(s => (At: s.Start, Claim: ClaimOf(b, s.Start, s.Value, clock, neck))))
            .Where(s => IsAsked(s.Claim)).GroupBy(s => s.At, s => direction.Downward(s.Claim))
        select place.ToArray());

    /// <summary>Whether there are strings that may speak in an order.</summary>
    private static bool IsAsked(StrokeClaim claim) => claim.Stroke != Stroke.Muted && claim.Pitches.Length > 0;

    private Finding Weigh(Bar bar, Claim<Stroke> stroke)
    {
        var claim = ClaimOf(bar, stroke.Start, stroke.Value, clock, neck);
        var sounds = stroke.Value == Stroke.Muted ? muted.LogOdds(features.Muted(claim)) : struck.LogOdds(features.Struck(claim));
        var goes = IsAsked(claim) ? StrokeDirection.Misleading(direction.LogOdds(claim), misled) : double.PositiveInfinity;
        var (heard, reading) = goes < sounds
            ? ("the strings speak in the other order", stroke.Value == Stroke.Down ? "u" : "d")
            : ("nothing is struck here", ".");
        var logOdds = Math.Min(sounds, goes);
        var place = new Place(Seconds.FromSeconds(claim.Time), bar.Number, stroke.Start.Value + 1);
        return Finding.Weighed(ClaimKind.Stroke, logOdds, place, Words(stroke.Value), heard) with { Rival = new(reading, -logOdds) };
    }

    private IEnumerable<Finding> Unwritten(Bar bar)
    {
        foreach (var (time, found) in strikes.Unwritten(clock.TimeOf(bar.Number).Value, clock.TimeOf(bar.Number, bar.Meter.BarLength).Value))
        {
            var logOdds = strike.LogOdds(found);
            var way = Way(bar, time);
            if (logOdds < UnwrittenNotes.Hardly)
                yield return Finding.Weighed(ClaimKind.StillHand, logOdds, Place.Heard(Seconds.FromSeconds(time), clock), "nothing more is struck here",
                    $"a stroke {(way == Stroke.Down ? "down" : "up")} is heard here that isn't written")
                    with { Rival = new(way == Stroke.Down ? "d" : "u", -logOdds) };
        }
    }

    /// <summary>Which way the hand goes by the order in which the strings of the shape speak; down where none is known.</summary>
    private Stroke Way(Bar bar, double time)
    {
        var held = bar.Chords.LastOrDefault(c => clock.TimeOf(bar.Number, c.Start).Value <= time + StrokeFeatures.Reach)?.Value.Shape;
        var claim = new StrokeClaim(time, Stroke.Down, held is null ? [] : SongNotes.Sounding(held, neck));
        return claim.Pitches.Length == 0 || direction.Downward(claim) >= 0 ? Stroke.Down : Stroke.Up;
    }

    private static string Words(Stroke stroke) => stroke switch
    {
        Stroke.Down => "a stroke down",
        Stroke.Up => "a stroke up",
        _ => "a muted stroke",
    };
}
