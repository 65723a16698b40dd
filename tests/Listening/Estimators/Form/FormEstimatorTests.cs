using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Form;
using Harkbook.Listening.Tests.Estimators.Beats;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Form;

public class FormEstimatorTests
{
    private const double Bar = 2.0;

    // Open chords, low to high (common practice): a verse in G, a bridge that stays away from it.
    private static readonly int[][] Verse = [[43, 47, 50, 55, 59, 67], [48, 52, 55, 60, 64], [50, 57, 62, 66], [43, 47, 50, 55, 59, 67]];
    private static readonly int[][] Bridge = [[53, 57, 60, 65], [58, 62, 65, 70], [51, 58, 63, 67], [56, 60, 63, 68]];

    [Fact]
    public void AVerseThatComesBackKeepsItsLetter()
    {
        var sections = Estimate([.. Bars(Verse, 8), .. Bars(Bridge, 8), .. Bars(Verse, 8)]);
        Assert.Equal(["A", "B", "A"], sections.Select(s => s.Label));
        Assert.Equal([0.5, 16.5, 32.5], sections.Select(s => Math.Round(s.Start.Value, 3)));
    }

    /// <summary>The second verse has half of the first's chords, the third half of the second's and none of the first's.</summary>
    [Fact]
    public void AVerseThatChangesEachTimeItComesBackKeepsItsLetter()
    {
        int[][] second = [Verse[0], Verse[1], Bridge[2], Bridge[3]], third = [Bridge[1], Bridge[0], Bridge[2], Bridge[3]];
        var sections = Estimate([.. Bars(Verse, 8), .. Bars(second, 8), .. Bars(third, 8)]);
        Assert.All(sections, s => Assert.Equal("A", s.Label));
        Assert.NotEqual(["A"], Estimate([.. Bars(Verse, 8), .. Bars(third, 8)]).Select(s => s.Label).Distinct());
    }

    [Fact]
    public void AnEndingOfTwoBarsIsASectionOfItsOwn()
    {
        var sections = Estimate([.. Bars(Verse, 8), .. Bars(Bridge, 8), .. Bars(Verse, 8), .. Bars([[49, 56, 61, 64]], 2)]);
        Assert.Equal(["A", "B", "A", "C"], sections.Select(s => s.Label));
        Assert.Equal(48.5, sections[^1].Start.Value, 3);
    }

    [Fact]
    public void OneLoopIsOneLetter() =>
        Assert.All(Estimate([.. Bars(Verse, 24)]), s => Assert.Equal("A", s.Label));

    [Fact]
    public void AShortRecordingIsOneSection() => Assert.Single(Estimate([.. Bars(Verse, 5)]));

    [Fact]
    public void SectionsJoinAndAreNeverOneBarLong()
    {
        var sections = Estimate([.. Bars(Verse, 6), .. Bars(Bridge, 1), .. Bars(Verse, 6), .. Bars(Bridge, 6)]);
        Assert.All(sections.Zip(sections.Skip(1)), pair => Assert.Equal(pair.First.End, pair.Second.Start));
        Assert.All(sections, s => Assert.True(s.End.Value - s.Start.Value > 3.9 * Bar, $"{s.Start} to {s.End}"));
    }

    /// <summary>One loop throughout, sung from its seventh bar on.</summary>
    [Fact]
    public void ASectionStartsWhereTheSingerComesIn()
    {
        var bars = Bars(Verse, 20).ToArray();
        var notes = Enumerable.Range(6, 14).Select(b => new HeardLineNote(60, default, Seconds.FromSeconds(0.5 + b * Bar),
            Seconds.FromSeconds(0.5 + b * Bar + 1.5), 0.9));
        var singer = new HeardLine { Kind = new(new Candidate<LineKind>(LineKind.Voice, 0.9)), Contour = PitchContour.Silent, Notes = [.. notes] };
        var (sound, beats) = Played(bars);
        var sections = new FormEstimator().Read(ColourScan.Of(sound, Hertz.A440, TestContext.Current.CancellationToken), beats, [], new(0.1, [singer]), []);
        Assert.Contains(sections, s => Math.Abs(s.Start.Value - (0.5 + 6 * Bar)) < 1e-3 && s.Confidence >= 0.9);
    }

    [Fact]
    public void WithoutBeatsThereIsNoForm() =>
        Assert.Empty(new FormEstimator().Estimate(new Plucks(3).Signal, Hertz.A440, [], TestContext.Current.CancellationToken));

    private static IEnumerable<int[]> Bars(int[][] chords, int count) => Enumerable.Range(0, count).Select(k => chords[k % chords.Length]);

    private static ImmutableArray<HeardSection> Estimate(int[][] bars)
    {
        var (sound, beats) = Played(bars);
        return new FormEstimator().Estimate(sound, Hertz.A440, beats, TestContext.Current.CancellationToken);
    }

    private static (Signal Sound, ImmutableArray<HeardBeat> Beats) Played(int[][] bars)
    {
        var plucks = new Plucks(0.5 + bars.Length * Bar + 1);
        var beats = ImmutableArray.CreateBuilder<HeardBeat>();
        for (var beat = 0; beat < 4 * bars.Length; beat++)
        {
            var time = 0.5 + beat * Bar / 4;
            beats.Add(new(Seconds.FromSeconds(time), beat % 4 + 1, 1));
            plucks.Strum(time, bars[beat / 4], 1);
        }
        return (plucks.Signal, beats.ToImmutable());
    }
}
