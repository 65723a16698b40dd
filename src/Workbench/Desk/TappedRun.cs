using System.Collections.Immutable;
using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Workbench.Desk;

/// <summary>Taps in the order in which they were made, and what they mean for a song.</summary>
/// <param name="Times">In the record, rising.</param>
/// <param name="Words">The syllables that are tapped, in order; where there are fewer than taps, the rest is rhythm alone.</param>
/// <param name="Delay">By what all taps are late.</param>
public sealed record TappedRun(TapKind Kind, ImmutableArray<Seconds> Times, ImmutableArray<string> Words, Seconds Delay)
{
    /// <summary>Syllables of words as they are typed: "fer-ry" is two, and the first keeps its hyphen.</summary>
    public static ImmutableArray<string> Syllables(string words) =>
        [.. words.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).SelectMany(Split).Where(s => s != "-")];

    /// <summary>What keeps the taps from being laid on the song, in words; null where nothing does.</summary>
    public string? Problem(Song song) => Times.IsEmpty ? "Nothing has been tapped yet."
        : Kind == TapKind.Syllables ? Rhythm(song).Taps.IsEmpty ? "No tap falls into the song's bars." : null
        : TappedBars.Problem(song, Beats(song)) is { } why ? $"{char.ToUpperInvariant(why[0])}{why[1..]}." : null;

    /// <param name="document">Of a song in which <see cref="Problem"/> sees nothing.</param>
    public SongDocument Onto(SongDocument document) => Kind == TapKind.Syllables ? Rhythm(document.Song!).Onto(document)
        : TappedBars.Of(document.Song!, Beats(document.Song!)).Onto(document);

    private TappedRhythm Rhythm(Song song) =>
        TappedRhythm.Of(song, Late.Select((at, i) => new Tap(at, i < Words.Length ? Words[i] : "x")));

    private IEnumerable<Seconds> Late => Times.Select(t => t < Delay ? default : t - Delay);

    /// <summary>The first tap means the bar line or beat nearest to it; each further tap the next.</summary>
    private List<TappedBeat> Beats(Song song)
    {
        var clock = new SongClock(song);
        var places = song.Bars.SelectMany(b => Enumerable.Range(0, Kind == TapKind.BarLines ? 1 : b.Meter.BeatsPerBar).Select(beat => (b.Number, Beat: beat)))
            .Append((Number: song.Bars.Count() + 1, Beat: 0)).ToList();
        Seconds[] taps = [.. Late];
        var first = Enumerable.Range(0, places.Count).MinBy(i => Math.Abs((clock.TimeOf(places[i].Number, Units.Beats.Whole(places[i].Beat)) - taps[0]).Value));
        return [.. taps.Take(places.Count - first).Select((at, i) => new TappedBeat(at, places[first + i].Number, places[first + i].Beat))];
    }

    private static IEnumerable<string> Split(string word)
    {
        var start = 0;
        for (var i = 0; i < word.Length; i++)
        {
            if (word[i] != '-' && i < word.Length - 1)
                continue;
            yield return word[start..(i + 1)];
            start = i + 1;
        }
    }
}
