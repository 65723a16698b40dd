using Harkbook.Listening.Checking.Weighing;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking.Shapes;

/// <summary>A moment at which a string is claimed to be struck as a shape holds it.</summary>
/// <param name="Time">In seconds.</param>
/// <param name="Shape">The shape that is held; what else it sounds explains pitches too.</param>
/// <param name="IsAlone">Picked by itself rather than strummed with others.</param>
/// <param name="IsHeld">Whether the string is claimed to be picked as the shape holds it; else it is picked elsewhere while most strings aren't.</param>
internal readonly record struct StruckString(int StringIndex, int Fret, double Time, Shape Shape, bool IsAlone, bool IsHeld = true);

/// <summary>Which strings a song claims to be struck when, as its shapes hold them: all by a stroke down, the upper three by one up.</summary>
internal static class StruckMoments
{
    /// <summary>How many strings a stroke up reaches, at the least (common practice).</summary>
    private const int Upper = 3;

    /// <summary>Heard strikes lie so far apart, and one that begins a chord may come so early, in seconds.</summary>
    private const double Apart = 0.1, Early = 0.05;

    /// <summary>From two certain starts on a heard strike is taken for a stroke over the strings, as the curve's logarithm.</summary>
    private static readonly double AStroke = Math.Log(2);

    /// <param name="curve">What is heard to be struck, for bars that say nothing of strokes and picked notes.</param>
    public static IEnumerable<StruckString> Of(Bar bar, SongClock clock, StrikeCurve curve) =>
        bar.Strums.IsEmpty && bar.Picked.IsEmpty ? bar.Chords.SelectMany(c => Heard(bar, c, clock, curve)) : Written(bar, clock);

    private static IEnumerable<StruckString> Heard(Bar bar, Claim<ChordUse> chord, SongClock clock, StrikeCurve curve)
    {
        if (chord.Value.Shape is not { } shape)
            yield break;
        var (from, to) = (clock.TimeOf(bar.Number, chord.Start).Value, clock.TimeOf(bar.Number, chord.Start + chord.Length).Value);
        foreach (var (time, log) in curve.Peaks(from - Early, to - Early, Apart))
        {
            for (var s = 0; s < shape.Frets.Length && log > AStroke; s++)
            {
                if (shape.Frets[s] is { } fret)
                    yield return new(s, fret, time, shape, false);
            }
        }
    }

    private static IEnumerable<StruckString> Written(Bar bar, SongClock clock)
    {
        foreach (var stroke in bar.Strums.Where(s => s.Value != Stroke.Muted))
        {
            if (SongNotes.ShapeAt(bar, stroke.Start) is not { } shape)
                continue;
            var sounding = Enumerable.Range(0, shape.Frets.Length).Where(s => shape.Frets[s] is not null).ToArray();
            foreach (var s in stroke.Value == Stroke.Up ? sounding.TakeLast(Upper) : sounding)
                yield return new(s, shape.Frets[s]!.Value, clock.TimeOf(bar.Number, stroke.Start).Value, shape, false);
        }
        foreach (var together in bar.Picked.Where(IsPlain).GroupBy(p => ShapeOver(bar, p)).Where(g => g.Key is not null))
        {
            var mostlyHeld = 2 * together.Count(p => IsHeld(together.Key!, p)) >= together.Count();
            foreach (var p in together.Where(p => together.Key!.Frets[p.Value.StringIndex] is not null && (mostlyHeld || IsHeld(together.Key!, p))))
                yield return new(p.Value.StringIndex, together.Key!.Frets[p.Value.StringIndex]!.Value, clock.TimeOf(bar.Number, p.Start).Value, together.Key!,
                    true, IsHeld(together.Key!, p));
        }
    }

    /// <summary>What speaks for a string of a shape: where it is struck as it is held, else where it is picked at all among strings that are held.</summary>
    public static List<StruckString> Telling(IEnumerable<StruckString> struck)
    {
        var all = struck.ToList();
        return all.Exists(s => s.IsHeld) ? all.FindAll(s => s.IsHeld) : all;
    }

    private static bool IsPlain(Claim<PickedNote> note) => note.Value is { IsMuted: false, TouchedAt: null } && note.Value.Bend.IsNone;

    private static Shape? ShapeOver(Bar bar, Claim<PickedNote> note) => SongNotes.ShapeAt(bar, note.Start);

    private static bool IsHeld(Shape shape, Claim<PickedNote> note) => shape.Frets[note.Value.StringIndex] == note.Value.Fret;
}
