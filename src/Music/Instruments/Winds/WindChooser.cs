using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Winds;

/// <summary>How well a fingered wind suits a tune.</summary>
/// <param name="Cost">0 when every fingering is plain and low; the mean over the notes of what each asks.</param>
/// <param name="Ways">One fingering a note, null where the instrument hasn't got it.</param>
public sealed record WindFit(FingeredWind Wind, double Cost, ImmutableArray<WindFingering?> Ways)
{
    public int Count(WindTechnique technique) => Ways.Count(w => w?.Technique == technique);

    public int Overblown => Ways.Count(w => w is { IsOverblown: true });

    public int NotThere => Ways.Count(w => w is null);
}

/// <summary>Ranks fingered winds for the notes of a tune. The weights are our judgement of how hard each fingering is, not a published scale.</summary>
public static class WindChooser
{
    private const double Crossed = 0.1;
    private const double HalfHoled = 0.5;
    private const double Overblown = 0.05;
    private const double NotThere = 3;

    /// <summary>The best first; equals keep their order. One entry in <paramref name="pitches"/> a sounded note.</summary>
    public static ImmutableArray<WindFit> Rank(IEnumerable<Pitch> pitches, IEnumerable<FingeredWind> winds)
    {
        var tune = pitches.ToImmutableArray();
        return [.. winds.Select(w => Weigh(w, tune)).OrderBy(f => Math.Round(f.Cost, 9))];
    }

    private static WindFit Weigh(FingeredWind wind, ImmutableArray<Pitch> tune)
    {
        ImmutableArray<WindFingering?> ways = [.. tune.Select(p => wind.FingeringsFor(p).FirstOrDefault())];
        return new(wind, ways.Select(CostOf).DefaultIfEmpty().Average(), ways);
    }

    private static double CostOf(WindFingering? way) =>
        way is null ? NotThere
        : (way.IsOverblown ? Overblown : 0) + way.Technique switch { WindTechnique.HalfHoled => HalfHoled, WindTechnique.Crossed => Crossed, _ => 0 };
}
