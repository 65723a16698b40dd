using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>Turns a picked note, with what the hands do to it, into notes about to sound.</summary>
internal sealed class PickedSound(Song song, IBarTimes times, Touch touch)
{
    private const double GhostShare = 0.3;
    private static readonly Seconds Grace = Seconds.FromMilliseconds(65);
    private static readonly Seconds Click = Seconds.FromMilliseconds(80);
    private static readonly Cents SlideIn = Cents.FromCents(200), SlideOut = Cents.FromCents(300);

    private readonly Fretboard neck = new(song.Tuning.Value, song.Capo.Value);
    private readonly Ringing ringing = new(song);

    /// <summary>The note at its time, its grace notes just before.</summary>
    public IEnumerable<PlayedNote> Play(Bar bar, Claim<PickedNote> claim)
    {
        var note = claim.Value;
        var start = touch.Around(times.At(bar.Number, claim.Start));
        var until = note.IsMuted ? start + Click : times.At(bar.Number, claim.Start + ringing.LengthOf(bar, claim));
        var strength = touch.Strength(claim.Start.Numerator == 0 ? 0.72 : claim.Start.Denominator == 1 ? 0.64 : 0.56) * (note.IsGhost ? GhostShare : 1);
        for (var i = 0; i < note.Graces.Count; i++)
        {
            var at = start - Grace * (note.Graces.Count - i);
            yield return new(note.StringIndex, neck.MidiAt(note.StringIndex, note.Graces[i].Fret), at, at + Grace, 0.8 * strength,
                KindOf(note.Graces[i].Attack), Motion: Into(note.Graces[i].Attack, note.Graces[i].Fret));
        }
        yield return Main(note, start, until > start ? until : start + Seconds.FromMilliseconds(30), strength);
    }

    private PlayedNote Main(PickedNote note, Seconds start, Seconds until, double strength)
    {
        var stopped = neck.MidiAt(note.StringIndex, note.Fret);
        var rise = note is { TouchedAt: not null, Rise: { } partial } ? partial - note.Fret : 0;
        var midi = stopped + (int)Math.Round(rise);
        return new(note.StringIndex, midi, start, until, strength, note.IsMuted ? PluckKind.Choked
            : KindOf(note.Attack), Cents.FromCents(100 * (stopped + rise - midi)), MotionOf(note));
    }

    private static FingerMotion MotionOf(PickedNote note) => Into(note.Attack, note.Fret) with
    {
        BendsTo = note.Bend.By,
        StartsBent = note.Bend.IsBefore,
        Releases = note.Bend.IsReleased,
        Wavers = note.HasVibrato,
        SlidesTo = note.SlideOff switch { SlideOff.Up => SlideOut, SlideOff.Down => SlideOut * -Math.Min(1, note.Fret / 3.0), _ => default },
    };

    private static FingerMotion Into(Attack attack, int fret) => attack switch
    {
        Attack.SlidFromBelow => new(SlidesFrom: SlideIn * -Math.Min(1, fret / 2.0)),
        Attack.SlidFromAbove => new(SlidesFrom: SlideIn),
        _ => default,
    };

    private static PluckKind KindOf(Attack attack) => attack switch
    {
        Attack.HammeredOn or Attack.Tapped => PluckKind.Hammered,
        Attack.PulledOff => PluckKind.Pulled,
        Attack.Slid => PluckKind.Slid,
        _ => PluckKind.Plucked,
    };
}
