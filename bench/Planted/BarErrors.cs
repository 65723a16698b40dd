using System.Collections.Immutable;
using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Bench.Planted;

/// <summary>Bar lines off, bars swapped, a section that is claimed to be like another.</summary>
internal sealed class BarErrors(Song song, SongClock clock)
{
    private static readonly ClaimKind[] anything = [.. Enum.GetValues<ClaimKind>().Where(k => k > ClaimKind.Bar)];

    /// <summary>How far off the beat a time is put that is wrong by less than one, in beats.</summary>
    private const double Part = 0.4;

    public IEnumerable<PlantedError> All() => Off().Concat(Swapped()).Concat(Alike());

    private IEnumerable<PlantedError> Off()
    {
        var first = 1;
        foreach (var (section, index) in song.Sections.Select((s, i) => (s, i)))
        {
            foreach (var anchor in section.Anchors.Where(a => a.Beat == Beats.Zero && a.Bar <= section.Bars.Length))
            {
                var number = first + anchor.Bar - 1;
                foreach (var beats in new[] { -1, 1 }.Where(b => b > 0 || number > 1))
                {
                    var at = clock.TimeOf(beats > 0 ? number : number - 1, beats > 0 ? Beats.Whole(1) : section.Bars[0].Meter.BarLength - Beats.Whole(1));
                    yield return Put("bar line a beat off", at);
                    yield return Put("bar line off the beat", anchor.At + (at - anchor.At) * Part);
                }

                PlantedError Put(string kind, Seconds at) => new(kind, [ClaimKind.Bar], f => f.Where?.Bar == number)
                {
                    Song = song with { Sections = song.Sections.SetItem(index,
                        section with { Anchors = section.Anchors.Replace(anchor, anchor with { At = at }) }) },
                    Truth = [TimeText.Write(anchor.At)],
                };
            }
            first += section.Bars.Length;
        }
    }

    /// <summary>Two bars of a section with other chords each, one in the other's place.</summary>
    private IEnumerable<PlantedError> Swapped() =>
        from section in song.Sections
        from i in Enumerable.Range(0, Math.Max(0, section.Bars.Length - 1))
        let a = section.Bars[i]
        let b = section.Bars[i + 1]
        where a.Meter == b.Meter && !a.Chords.Select(c => c.Value.Chord).SequenceEqual(b.Chords.Select(c => c.Value.Chord))
        select new PlantedError("two bars swapped", anything, f => f.Where?.Bar == a.Number || f.Where?.Bar == b.Number)
        {
            Song = song.With(a.Number, _ => b with { Number = a.Number }).With(b.Number, _ => a with { Number = b.Number }),
        };

    /// <summary>A section with an earlier one's bars, from its first on.</summary>
    private IEnumerable<PlantedError> Alike() =>
        from i in Enumerable.Range(1, song.Sections.Length - 1)
        from j in Enumerable.Range(0, i)
        let own = song.Sections[i]
        let other = song.Sections[j]
        where own.Bars.Length <= other.Bars.Length && own.Bars.Length > 1
            && own.Bars.Zip(other.Bars).Count(p => !Chords(p.First).SequenceEqual(Chords(p.Second))) * 2 >= own.Bars.Length
        select new PlantedError("section like another that isn't", [ClaimKind.Section, .. anything], f =>
            f.Where?.Bar is { } bar && bar >= own.Bars[0].Number && bar <= own.Bars[^1].Number)
        {
            Song = song with { Sections = song.Sections.SetItem(i,
                own with { Bars = [.. other.Bars.Take(own.Bars.Length).Select((b, n) => b with { Number = own.Bars[n].Number })] }) },
        };

    private static IEnumerable<object> Chords(Bar bar) => bar.Chords.Select(c => c.Value.Chord);
}
