using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Publishing.Lessons.Timing;

/// <summary>Something that lasts in the recording, in seconds from its start.</summary>
public sealed record Timed<T>(double Start, double End, T Value);

/// <summary>
/// A bar on the recording's clock. Beat times are those of its beats as they are counted (<see cref="Music.Theory.Counting"/>) and hold one
/// more than there are: the bar's end.
/// </summary>
/// <param name="ChangesMeter">Whether its meter is another than the bar's before it, or the song's where it is the first.</param>
public sealed record TimedBar(Bar Bar, int SectionIndex, ImmutableArray<double> BeatTimes, bool ChangesMeter)
{
    /// <summary>What it is called: its number, in a practice that of the bar which is practised, or "count in".</summary>
    public required string Name { get; init; }

    /// <summary>Counted beats: the felt ones, or every division of a compound meter.</summary>
    public int Count => BeatTimes.Length - 1;

    /// <summary>Where a counted beat (from 0; one past the last is the bar's end) stands in felt beats.</summary>
    public Beats PlaceOf(int beat) => Beats.Fraction(beat * Bar.Meter.BeatsPerBar, Count);

    public double Start => BeatTimes[0];

    public double End => BeatTimes[^1];
}

/// <summary>
/// Everything that a play-along shows, with when: what the video's frames and the page read. Chords that go on over a
/// bar line under the same name are one.
/// </summary>
public sealed class LessonTimeline
{
    /// <summary>What is this near to a chord's edge, in seconds, stands at it.</summary>
    private const double Close = 0.02;

    private readonly double[] handsAt;

    /// <param name="names">What the bars are called where that isn't their number.</param>
    public LessonTimeline(Song song, IReadOnlyList<string>? names = null) : this(song, Passage.Whole(song), default, names)
    {
    }

    /// <param name="passage">The bars that are played along with.</param>
    /// <param name="start">Where the sound that is played along with starts on the song's clock; all times here count from there.</param>
    /// <param name="names">What the bars are called where that isn't their number.</param>
    public LessonTimeline(Song song, Passage passage, Seconds start, IReadOnlyList<string>? names = null)
    {
        Song = song;
        IsPractice = names is not null;
        var clock = new SongClock(song);
        var section = song.Sections.SelectMany((s, i) => s.Bars.Select(_ => i)).ToArray();
        var bars = song.Bars.ToArray();
        var all = bars.Select((bar, i) => new TimedBar(bar, section[i], BeatTimes(clock, bar, bar.Meter.CountsPerBeat(song.Counting)), bar.Meter != (i == 0
            ? song.Meter.Value : bars[i - 1].Meter)) { Name = names?[i] ?? bar.Number.ToString(CultureInfo.InvariantCulture) });
        Bars = [.. all.Where(b => passage.Holds(b.Bar)).Select(b => b with { BeatTimes = [.. b.BeatTimes.Select(t => t - start.Value)] })];
        var played = bars.Where(passage.Holds).ToArray();
        Chords = Joined(played.SelectMany(bar => bar.Chords.Select(c => From(start, On(clock, bar, c)))));
        Sung = [.. played.SelectMany(bar => bar.Sung.Select(c => From(start, On(clock, bar, c))))];
        Strums = [.. played.SelectMany(bar => bar.Strums.Select(c => From(start, On(clock, bar, c))))];
        Harp = [.. played.SelectMany(bar => Breaths(clock, bar)).Select(b => From(start, b))];
        handsAt = [.. Strums.Select(s => s.Start), .. played.SelectMany(bar => bar.Picked.Select(p => From(start, On(clock, bar, p)).Start))];
        Sections = [.. song.Sections.Select((s, i) => Section(s, i)).Where(s => s.End > s.Start)];
    }

    public Song Song { get; }

    /// <summary>Whether the bars are some of a song's over and over, called as there.</summary>
    public bool IsPractice { get; }

    public ImmutableArray<TimedBar> Bars { get; }

    public ImmutableArray<Timed<ChordUse>> Chords { get; }

    public ImmutableArray<Timed<string>> Sung { get; }

    public ImmutableArray<Timed<Stroke>> Strums { get; }

    /// <summary>Notes that start together on the harmonica: one breath.</summary>
    public ImmutableArray<Timed<ImmutableArray<HarpNote>>> Harp { get; }

    /// <summary>Names of the sections that have bars.</summary>
    public ImmutableArray<Timed<string>> Sections { get; }

    /// <summary>Where the music starts and ends, in seconds.</summary>
    public (double Start, double End) Music => Bars.IsEmpty ? (0, 0) : (Bars[0].Start, Bars[^1].End);

    /// <summary>Whether from a chord's end (−1: from the start) until the next chord the hands do nothing at all.</summary>
    public bool IsSilentAfter(int chord)
    {
        var (from, until) = (chord < 0 ? Music.Start : Chords[chord].End, chord + 1 < Chords.Length ? Chords[chord + 1].Start : Music.End);
        return until > from + Close && !handsAt.Any(t => t > from - Close && t < until - Close);
    }

    /// <summary>The index of the item sounding at a time, or of the last that started before it; −1 before the first.</summary>
    public static int IndexAt<T>(ImmutableArray<Timed<T>> items, double time)
    {
        var (low, high) = (0, items.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (items[middle].Start <= time)
                low = middle + 1;
            else
                high = middle;
        }
        return low - 1;
    }

    private Timed<string> Section(Section section, int index)
    {
        var bars = Bars.Where(b => b.SectionIndex == index).ToArray();
        return bars.Length == 0 ? new(0, 0, section.Name) : new(bars[0].Start, bars[^1].End, section.Name);
    }

    private static Timed<T> From<T>(Seconds start, Timed<T> item) => item with { Start = item.Start - start.Value, End = item.End - start.Value };

    private static ImmutableArray<double> BeatTimes(SongClock clock, Bar bar, int counts) =>
    [
        .. Enumerable.Range(0, bar.Meter.BeatsPerBar * counts).Select(b => clock.TimeOf(bar.Number, Beats.Fraction(b, counts)).Value),
        clock.TimeOf(bar.Number + 1).Value,
    ];

    private static Timed<T> On<T>(SongClock clock, Bar bar, Claim<T> claim) =>
        new(TimeOf(clock, bar, claim.Start), TimeOf(clock, bar, claim.Start + claim.Length), claim.Value);

    /// <summary>The end of a bar is the start of the next, which another anchor may have moved.</summary>
    private static double TimeOf(SongClock clock, Bar bar, Beats at) =>
        at >= bar.Meter.BarLength ? clock.TimeOf(bar.Number + 1, at - bar.Meter.BarLength).Value : clock.TimeOf(bar.Number, at).Value;

    private static IEnumerable<Timed<ImmutableArray<HarpNote>>> Breaths(SongClock clock, Bar bar) =>
        bar.Harp.GroupBy(c => c.Start).OrderBy(g => g.Key)
            .Select(g => On(clock, bar, new Claim<ImmutableArray<HarpNote>>(g.Key, g.Max(c => c.Length), [.. g.Select(c => c.Value)], Standing.Decided)));

    private static ImmutableArray<Timed<ChordUse>> Joined(IEnumerable<Timed<ChordUse>> chords)
    {
        var joined = ImmutableArray.CreateBuilder<Timed<ChordUse>>();
        foreach (var chord in chords)
        {
            if (joined.Count > 0 && joined[^1].Value.Name == chord.Value.Name && Math.Abs(joined[^1].End - chord.Start) < 0.001)
                joined[^1] = joined[^1] with { End = chord.End };
            else
                joined.Add(chord);
        }
        return joined.ToImmutable();
    }
}
