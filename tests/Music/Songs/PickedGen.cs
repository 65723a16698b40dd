using CsCheck;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>Notes on a string with every technique that a song file can say, alone and together.</summary>
internal static class PickedGen
{
    private static readonly Gen<Attack> Starts = Gen.Enum<Attack>();

    private static readonly Gen<Attack> Links = Gen.OneOf(Attack.Picked, Attack.HammeredOn, Attack.PulledOff, Attack.Slid);

    private static readonly Gen<Bend> Bends = Gen.Frequency(
        (2, Gen.Const(default(Bend))),
        (1, Gen.Select(Gen.Int[1, 10], Gen.Bool, Gen.Bool, (halves, before, back) => new Bend(Cents.FromCents(50 * halves), before, back))));

    private static readonly Gen<PickedNote> Muted = Gen.Enum<PickingFinger>().Select(f => new PickedNote(0, 0) { IsMuted = true, Finger = f });

    private static readonly Gen<PickedNote> Sounding =
        from attacks in Gen.Select(Starts, Links.Array[0, GraceNotes.Most])
        from frets in Gen.Int[0, PickedNote.HighestFret].Array[GraceNotes.Most + 1]
        from touch in Gen.Frequency((3, Gen.Const(0)), (1, Gen.OneOf(12, 7, 5, 4, 3, 9)))
        from bend in Bends
        from marks in Gen.Select(Gen.Bool, Gen.Bool, Gen.Bool, Gen.Enum<SlideOff>(), Gen.Enum<PickingFinger>())
        select Note([attacks.Item1, .. attacks.Item2], frets, touch, bend) with
        {
            IsGhost = touch == 0 && marks.Item1, HasVibrato = marks.Item2, LetsRing = marks.Item3, SlideOff = marks.Item4, Finger = marks.Item5,
        };

    public static Gen<PickedNote> Notes { get; } = Gen.Frequency((1, Gen.Select(Gen.Int[0, 24], Links, (f, a) => new PickedNote(0, f, a))),
        (3, Sounding), (1, Muted));

    private static PickedNote Note(Attack[] attacks, int[] frets, int touch, Bend bend)
    {
        var fret = touch == 0 ? frets[^1] : frets[^1] % (PickedNote.HighestFret - 12);
        return new(0, fret, attacks[^1])
        {
            Graces = GraceNotes.Of([.. attacks.Take(attacks.Length - 1).Select((a, i) => new GraceNote(frets[i], a))]),
            TouchedAt = touch == 0 ? null : fret + touch,
            Bend = bend,
        };
    }
}
