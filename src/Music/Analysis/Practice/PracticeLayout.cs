using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Practice;

/// <summary>Lays bars out one after the other and keeps the time.</summary>
internal sealed class PracticeLayout
{
    private readonly Song song;
    private readonly PracticeOptions options;
    private readonly ImmutableArray<Bar> once;
    private readonly ImmutableArray<double> lengths;
    private readonly double tempo;
    private readonly ImmutableArray<int>.Builder counted = ImmutableArray.CreateBuilder<int>();
    private readonly ImmutableArray<string>.Builder names = ImmutableArray.CreateBuilder<string>();
    private double now;
    private int number = 1;

    public PracticeLayout(Song song, PracticeOptions options)
    {
        (this.song, this.options) = (song, options);
        var clock = new SongClock(song);
        Bar[] bars = [.. song.Bars.Skip(options.FirstBar - 1).Take(options.LastBar - options.FirstBar + 1)];
        once = [.. Clipped(bars)];
        var beats = bars.Sum(b => b.Meter.BarLength.Value);
        var seconds = (clock.TimeOf(options.LastBar + 1) - clock.TimeOf(options.FirstBar)).Value;
        tempo = beats / seconds * 60;
        lengths = [.. bars.Select(b => options.AsRecorded ? (clock.TimeOf(b.Number + 1) - clock.TimeOf(b.Number)).Value
            : b.Meter.BarLength.Value * 60 / tempo)];
    }

    public PracticePlan LayOut()
    {
        var (stages, sections) = (ImmutableArray.CreateBuilder<PracticeStage>(), ImmutableArray.CreateBuilder<Section>());
        foreach (var speed in options.Speeds)
        {
            var at = now;
            var (bars, anchors, rounds) = Stage(speed);
            stages.Add(new(speed, tempo * speed, Seconds.FromSeconds(at), rounds));
            sections.Add(new(PracticePlan.NameOf(speed, tempo * speed), anchors, bars));
        }
        var harp = once.Any(b => !b.Harp.IsEmpty) ? song.Harp : null;
        var practice = song with
        {
            Recording = null,
            Harp = harp,
            TunePlayer = Player(),
            Tempo = song.Tempo with { Value = tempo },
            Sections = sections.ToImmutable(),
        };
        return new(practice, stages.ToImmutable(), counted.ToImmutable(), Seconds.FromSeconds(now)) { BarNames = names.ToImmutable() };
    }

    /// <summary>Who has most of the passage's tune; null where it has none.</summary>
    private Fact<TunePlayer>? Player() =>
        song.Sections.Select(s => (Player: song.TunePlayerIn(s), Notes: s.Bars.Where(b => once.Any(o => o.Number == b.Number)).Sum(b => b.Tune.Length)))
            .Where(s => s.Notes > 0).OrderByDescending(s => s.Notes).Select(s => new Fact<TunePlayer>(s.Player, Standing.Decided)).FirstOrDefault();

    private (ImmutableArray<Bar> Bars, ImmutableArray<Anchor> Anchors, ImmutableArray<Seconds> Rounds) Stage(double speed)
    {
        var (bars, anchors, rounds) = (new List<Bar>(), new List<Anchor>(), ImmutableArray.CreateBuilder<Seconds>());
        void Add(Bar bar, double seconds, string name)
        {
            names.Add(name);
            bars.Add(bar with { Number = number++ });
            anchors.Add(new(bars.Count, Seconds.FromSeconds(now)));
            now += seconds / speed;
        }
        for (var round = 0; round < options.Rounds; round++)
        {
            if (round == 0 || options.Lead != RoundLead.CountEachSpeed)
            {
                var counts = round == 0 || options.Lead == RoundLead.CountEachRound;
                if (counts)
                    counted.Add(number);
                Add(new() { Number = number, Meter = once[0].Meter }, lengths[0], counts ? "count in" : "rest");
            }
            rounds.Add(Seconds.FromSeconds(now));
            for (var i = 0; i < once.Length; i++)
                Add(once[i], lengths[i], once[i].Number.ToString(CultureInfo.InvariantCulture));
        }
        anchors.Add(new(bars.Count + 1, Seconds.FromSeconds(now)));
        return ([.. bars], [.. anchors], rounds.ToImmutable());
    }

    /// <summary>What rings on past the last bar stops there.</summary>
    private static IEnumerable<Bar> Clipped(Bar[] bars)
    {
        var left = bars.Aggregate(Beats.Zero, (sum, b) => sum + b.Meter.BarLength);
        foreach (var bar in bars)
        {
            yield return bar with
            {
                Sung = Until(bar.Sung, left),
                Tune = Until(bar.Tune, left),
                Harp = Until(bar.Harp, left),
                Picked = Until(bar.Picked, left),
                Strums = Until(bar.Strums, left),
            };
            left -= bar.Meter.BarLength;
        }
    }

    private static ImmutableArray<Claim<T>> Until<T>(ImmutableArray<Claim<T>> claims, Beats end) =>
        [.. claims.Select(c => c.Start + c.Length > end ? c with { Length = end - c.Start } : c)];
}
