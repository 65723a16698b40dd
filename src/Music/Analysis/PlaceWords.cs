using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis;

/// <summary>
/// Places in a song as players name them: "Verse 1, bars 7 to 9; Chorus 1, bar 14 from beat 3". Bars are numbered through
/// the song, as on its sheet. Where there are many places, their beats are left out.
/// </summary>
public static class PlaceWords
{
    private const int MostWithBeats = 4;

    public static string Of(Song song, IEnumerable<SongPlace> places)
    {
        var sections = Sections(song);
        var all = places.Distinct().ToArray();
        if (all.Length > MostWithBeats)
            all = [.. all.Select(p => p with { Start = Beats.Zero }).Distinct()];
        return string.Join("; ", all.GroupBy(p => sections[p.Bar - 1]).Select(g => $"{g.Key.Name}, {Bars(song, [.. g])}"));
    }

    private static ImmutableArray<Section> Sections(Song song) => [.. song.Sections.SelectMany(s => s.Bars.Select(_ => s))];

    private static string Bars(Song song, ImmutableArray<SongPlace> places)
    {
        var bars = song.Bars.ToArray();
        var whole = places.Where(p => p.Start == Beats.Zero).Select(p => p.Bar).ToHashSet();
        var (words, run) = (new List<string>(), new List<int>());
        foreach (var place in places.Where(p => p.Start == Beats.Zero || !whole.Contains(p.Bar)).Distinct().OrderBy(p => (p.Bar, p.Start)))
        {
            if (place.Start == Beats.Zero)
            {
                run.Add(place.Bar);
                continue;
            }
            words.AddRange(Named(run));
            run.Clear();
            words.Add(string.Create(CultureInfo.InvariantCulture,
                $"bar {place.Bar} from beat {BarPlace.Of(bars[place.Bar - 1].Meter, place.Start).Named(song.Counting)}"));
        }
        words.AddRange(Named(run));
        return string.Join(", ", words);
    }

    /// <summary>"bar 7", "bars 7 to 9".</summary>
    public static string Bars(int first, int last) => first == last ? $"bar {first}" : $"bars {first} to {last}";

    /// <summary>Bars that follow one another, joined: 2, 3, 4, 7 are 2 to 4 and 7 to 7.</summary>
    public static IReadOnlyList<(int First, int Last)> Runs(IEnumerable<int> bars)
    {
        var runs = new List<(int First, int Last)>();
        foreach (var bar in bars.Distinct().Order())
        {
            if (runs.Count > 0 && runs[^1].Last == bar - 1)
                runs[^1] = (runs[^1].First, bar);
            else
                runs.Add((bar, bar));
        }
        return runs;
    }

    private static IEnumerable<string> Named(List<int> bars)
    {
        if (bars.Count == 0)
            return [];
        var words = Runs(bars).Select(r => r.First == r.Last ? $"{r.First}" : r.Last == r.First + 1 ? $"{r.First}, {r.Last}" : $"{r.First} to {r.Last}");
        return [(bars.Count == 1 ? "bar " : "bars ") + string.Join(", ", words)];
    }
}
