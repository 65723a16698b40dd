using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>Voice and guitar in one bar as two lines on one count: where they start, together or apart.</summary>
/// <param name="Meetings">In order of place.</param>
public sealed record TwoParts(Bar Bar, ImmutableArray<Meeting> Meetings)
{
    public static TwoParts Of(Bar bar)
    {
        var voice = bar.Sung.GroupBy(s => s.Start).ToDictionary(g => g.Key, g => g.First().Value);
        var guitar = bar.Strums.Select(s => s.Start).Concat(bar.Picked.Select(p => p.Start)).ToHashSet();
        var places = voice.Keys.Union(guitar).Where(p => p >= Beats.Zero && p < bar.Meter.BarLength).Order();
        return new(bar, [.. places.Select(p => new Meeting(p, voice.GetValueOrDefault(p), guitar.Contains(p)))]);
    }

    public IEnumerable<Meeting> Voice => Meetings.Where(m => m.VoiceStarts);

    public int Together => Meetings.Count(m => m.IsTogether);

    public bool HasGuitar => Meetings.Any(m => m.GuitarStrikes);

    public bool HasVoice => Meetings.Any(m => m.VoiceStarts);
}
