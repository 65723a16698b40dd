using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>Where a part falls silent: what sounded has ended, in its own bar or an earlier one, and nothing follows at once.</summary>
internal sealed class Silences
{
    private readonly Dictionary<int, List<Beats>> starts = [];

    /// <summary>Where a chord ends and no hand plays on; where one does, its next chord just isn't named.</summary>
    public static Silences OfChords(IEnumerable<IEnumerable<Bar>> stretches) =>
        Of(stretches, b => b.Chords.Select(c => (c.Start, c.Length)), b => [.. Strums(b), .. Picked(b)]);

    /// <summary>Where the hand that strums stops and picks nothing.</summary>
    public static Silences OfStrums(Song song) => Of(Stretches(song), Strums, Picked);

    /// <summary>Where the hand that picks stops and strums nothing.</summary>
    public static Silences OfPicked(Song song) => Of(Stretches(song), Picked, Strums);

    public static Silences OfHarp(Song song) => Of(Stretches(song), b => b.Harp.Select(c => (c.Start, c.Length)));

    /// <summary>A section starts from silence, so each is a stretch of its own.</summary>
    public static IEnumerable<IEnumerable<Bar>> Stretches(Song song) => song.Sections.Select(s => s.Bars.AsEnumerable());

    public bool Any => starts.Count > 0;

    /// <summary>The beats of a bar at which silence begins, in order.</summary>
    public IReadOnlyList<Beats> In(Bar bar) => starts.GetValueOrDefault(bar.Number) ?? [];

    private static IEnumerable<(Beats Start, Beats Length)> Strums(Bar bar) => bar.Strums.Select(c => (c.Start, c.Length));

    private static IEnumerable<(Beats Start, Beats Length)> Picked(Bar bar) => bar.Picked.Select(c => (c.Start, c.Length));

    /// <param name="instead">What the same hand may be doing by then.</param>
    private static Silences Of(IEnumerable<IEnumerable<Bar>> stretches, Func<Bar, IEnumerable<(Beats Start, Beats Length)>> sounds,
        Func<Bar, IEnumerable<(Beats Start, Beats Length)>>? instead = null)
    {
        var silences = new Silences();
        foreach (var bars in stretches)
            silences.Walk(bars, sounds, instead ?? (_ => []));
        return silences;
    }

    private void Walk(IEnumerable<Bar> bars, Func<Bar, IEnumerable<(Beats Start, Beats Length)>> sounds,
        Func<Bar, IEnumerable<(Beats Start, Beats Length)>> instead)
    {
        Beats? soundsUntil = null;
        foreach (var bar in bars)
        {
            foreach (var (start, length) in sounds(bar).OrderBy(s => s.Start))
            {
                EndBefore(start);
                soundsUntil = soundsUntil is { } until && until > start + length ? until : start + length;
            }
            EndBefore(bar.Meter.BarLength);
            soundsUntil -= bar.Meter.BarLength;

            void EndBefore(Beats next)
            {
                if (soundsUntil is not { } end || end >= next)
                    return;
                soundsUntil = null;
                if (instead(bar).Any(s => s.Start <= end && s.Start + s.Length > end))
                    return;
                if (!starts.TryGetValue(bar.Number, out var list))
                    starts[bar.Number] = list = [];
                list.Add(end);
            }
        }
    }
}
