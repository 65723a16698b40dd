using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>Turns a song's strums and picked notes into notes on strings.</summary>
internal sealed class GuitarPart(Song song, IBarTimes times, Touch touch)
{
    private const int StringsOfUpStroke = 4;
    private readonly Fretboard neck = new(song.Tuning.Value, song.Capo.Value);
    private readonly PickedSound picking = new(song, times, touch);

    /// <summary>Every note in order of time.</summary>
    public List<PlayedNote> Play() =>
        [.. Strokes.Of(song, times).SelectMany(Strum).Concat(song.Bars.SelectMany(Pick)).OrderBy(n => n.At)];

    private IEnumerable<PlayedNote> Strum(TimedStroke stroke)
    {
        var strings = StringsOf(stroke);
        var strength = touch.Strength(StrengthOf(stroke));
        var step = touch.Spread(strength) * (1.0 / Math.Max(1, strings.Count - 1));
        var at = touch.Around(stroke.At);
        for (var i = 0; i < strings.Count; i++)
        {
            var start = at + step * i;
            var muted = stroke.Stroke == Stroke.Muted;
            var until = muted ? start + Seconds.FromSeconds(0.08) : stroke.Until;
            yield return new(strings[i], neck.MidiAt(strings[i], stroke.Shape.Frets[strings[i]] ?? 0), start, Later(until, start), strength * (1 - 0.04 * i),
                muted ? PluckKind.Choked : PluckKind.Plucked);
        }
    }

    private static List<int> StringsOf(TimedStroke stroke)
    {
        var sounding = Enumerable.Range(0, stroke.Shape.Frets.Length).Where(i => stroke.Shape.Frets[i] is not null).ToList();
        return stroke.Stroke == Stroke.Up ? [.. sounding.AsEnumerable().Reverse().Take(StringsOfUpStroke)] : sounding;
    }

    private static double StrengthOf(TimedStroke stroke) => stroke switch
    {
        { Stroke: Stroke.Muted } => 0.45,
        { Stroke: Stroke.Up } => 0.45,
        { Start.Numerator: 0 } => 0.75,
        { Start.Denominator: 1 } => 0.62,
        _ => 0.55,
    };

    private static Seconds Later(Seconds until, Seconds start) => until > start ? until : start + Seconds.FromMilliseconds(30);

    private IEnumerable<PlayedNote> Pick(Bar bar) => bar.Picked.SelectMany(claim => picking.Play(bar, claim));
}
