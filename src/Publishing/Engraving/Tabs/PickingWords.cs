using Harkbook.Music.Songs;

namespace Harkbook.Publishing.Engraving.Tabs;

/// <summary>What the signs of a song's picked notes mean; only those that it has.</summary>
internal static class PickingWords
{
    public static string Of(IEnumerable<Bar> bars)
    {
        var notes = bars.SelectMany(b => b.Picked).Select(p => p.Value).ToArray();
        string[] words = [.. Signs.Where(s => notes.Any(s.Has)).Select(s => s.Words)];
        return words.Length == 0 ? "" : $"Picking: {string.Join(", ", words)}.";
    }

    private static readonly (Func<PickedNote, bool> Has, string Words)[] Signs =
    [
        (n => Starts(n, Attack.HammeredOn), "h hammered on"),
        (n => Starts(n, Attack.PulledOff), "p pulled off"),
        (n => n.Graces.Count == 0 && n.Attack == Attack.Slid, "s slid to"),
        (n => n.SlideOff != SlideOff.None || Starts(n, Attack.SlidFromBelow) || Starts(n, Attack.SlidFromAbove)
            || (n.Graces.Count > 0 && Starts(n, Attack.Slid)), "a slanted line slides"),
        (n => Starts(n, Attack.Tapped), "t tapped by the picking hand"),
        (n => n.Graces.Count > 0, "small numbers short and just before"),
        (n => n.IsMuted, "× muted"),
        (n => n.IsGhost, "( ) hardly played"),
        (n => n.TouchedAt is not null && n.Fret == 0, "< > harmonic, touched at that fret"),
        (n => n.TouchedAt is not null && n.Fret > 0, "a fret before < > is held meanwhile"),
        (n => !n.Bend.IsNone, "an arrow bends by so many whole steps"),
        (n => n.Bend.IsBefore, "straight: bent before it is picked"),
        (n => n.HasVibrato, "a wavy line is vibrato"),
        (n => n.Finger != PickingFinger.None, "under the strings the picking hand: p thumb, i index, m middle, a ring"),
        (n => n.Finger == PickingFinger.Little, "c little finger"),
    ];

    private static bool Starts(PickedNote note, Attack attack) => note.Attack == attack || note.Graces.All().Any(g => g.Attack == attack);
}
