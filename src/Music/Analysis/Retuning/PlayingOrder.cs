using System.Collections.Immutable;

namespace Harkbook.Music.Analysis.Retuning;

/// <summary>In which order songs ask for the least retuning.</summary>
/// <param name="Order">Indices of the songs as they were given; songs of one setting keep their order.</param>
/// <param name="Cost">As <see cref="RetuningCost"/> counts it, from the starting setting on.</param>
/// <param name="IsBest">Whether no order costs less; false where there were too many settings to be sure.</param>
public sealed record PlayingOrder(ImmutableArray<int> Order, double Cost, bool IsBest)
{
    /// <summary>With as many different settings every order is weighed.</summary>
    public const int MostWeighed = 12;

    /// <param name="songs">All with as many strings as <paramref name="start"/>.</param>
    /// <param name="start">How the instrument is tuned before the first.</param>
    public static PlayingOrder Of(IReadOnlyList<GuitarSetting> songs, GuitarSetting start, RetuningCost? costs = null)
    {
        if (songs.FirstOrDefault(s => s.Tuning.Count != start.Tuning.Count) is { } other)
            throw new ArgumentException($"{other.Tuning.Count} strings among songs for {start.Tuning.Count}; order the songs of one instrument at a time.",
                nameof(songs));
        // Going back to a setting never costs less than staying in it, so songs of one setting stand together.
        var settings = songs.Distinct().ToImmutableArray();
        var cost = new CostTable(settings, start, costs ?? RetuningCost.Usual);
        var order = settings.Length <= MostWeighed ? cost.Best() : cost.Good();
        return new(
            [.. order.SelectMany(i => Enumerable.Range(0, songs.Count).Where(s => songs[s].Equals(settings[i])))],
            cost.Of(order), settings.Length <= MostWeighed);
    }
}
