using System.Collections.Immutable;

namespace Harkbook.Music.Songs.Writing;

/// <summary>The voices of a section, ready to write; a part without a claim has none.</summary>
internal static class SectionScript
{
    public static VoiceScript? Of(ImmutableArray<Bar> bars, SongPart part) => part switch
    {
        SongPart.Chords => Script(bars, b => b.Chords, c => PlainText.Cell(c.Name, isChord: true)),
        SongPart.Strum => Script(bars, b => b.Strums, s => s switch { Stroke.Down => "d", Stroke.Up => "u", _ => "x" }),
        SongPart.Sung => Script(bars, b => b.Sung, s => PlainText.Cell(s, isChord: false), isSung: true),
        SongPart.Tune => Script(bars, b => b.Tune, t => t.ToString()),
        SongPart.Harp => Harp(bars),
        _ => throw new ArgumentOutOfRangeException(nameof(part), part, "A pick block has one voice a string."),
    };

    public static VoiceScript? OfString(ImmutableArray<Bar> bars, int stringIndex) =>
        Script(bars, b => b.Picked.Where(p => p.Value.StringIndex == stringIndex), PickedText.Of);

    private static VoiceScript? Harp(ImmutableArray<Bar> bars)
    {
        var breaths = bars.SelectMany((bar, i) => bar.Harp.GroupBy(n => n.Start).Select(g => new Written(
            i + 1, g.Key, g.First().Length, string.Join('&', g.Select(n => n.Value.ToString())), g.First().Standing))).ToList();
        return breaths.Count == 0 ? null : new(bars, breaths);
    }

    private static VoiceScript? Script<T>(ImmutableArray<Bar> bars, Func<Bar, IEnumerable<Claim<T>>> claims, Func<T, string> text, bool isSung = false)
    {
        var values = bars.SelectMany((bar, i) => claims(bar).Select(c => new Written(i
            + 1, c.Start, c.Length, text(c.Value), c.Standing) { IsSung = isSung })).ToList();
        return values.Count == 0 ? null : new(bars, values);
    }
}
