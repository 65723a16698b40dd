using System.Collections.Immutable;
using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What the hand does in a bar.</summary>
internal enum PlayedAs
{
    Strummed,
    Picked,
}

/// <summary>How each bar is played and how its beats are divided, each with how sure that is.</summary>
/// <param name="Sure">Of the playing, 0–1.</param>
internal readonly record struct PlayedBar(PlayedAs Playing, double Sure, Subdivision Grid);

/// <summary>
/// Reads from the strikes of each bar whether it is strummed or picked, by how many strings sound together, and how its beats are divided, by where in the
/// beat strikes fall: each a hidden Markov model over bars, since players seldom change either (Rabiner 1989).
/// </summary>
internal sealed class PlayedBars(PlayingModel model)
{
    /// <summary>How often the next bar is played otherwise, and divided otherwise.</summary>
    private const double Changes = 0.1, DividesAnew = 0.05;

    /// <summary>What a grid that comes later in the list must earn more.</summary>
    private const double Plainer = 1;

    /// <param name="strikes">By bar.</param>
    public ImmutableArray<PlayedBar> Read(BeatAxis axis, ILookup<int, Strike> strikes)
    {
        if (axis.Bars.IsEmpty)
            return [];
        var grids = axis.Bars[0].Meter.IsCompound ? Subdivision.Compound : Subdivision.Simple;
        var bars = Enumerable.Range(0, axis.Bars.Length).ToArray();
        var playing = new Lattice(new TableModel([.. bars.Select(b => ByStrings(strikes[b]))], Changing(2, Changes)));
        var divided = new Lattice(new TableModel([.. bars.Select(b => ByPlaces(axis, strikes[b], grids))], Changing(grids.Length, DividesAnew)));
        var (sure, kinds, cut) = (playing.Posteriors(), playing.Best().States, divided.Best().States);
        return [.. bars.Select(b => new PlayedBar((PlayedAs)kinds[b], sure[b][kinds[b]], grids[cut[b]]))];
    }

    private double[] ByStrings(IEnumerable<Strike> strikes)
    {
        var sums = new double[2];
        foreach (var strike in strikes)
        {
            var most = Math.Min(strike.Strings, model.Strummed.Length) - 1;
            sums[0] += Math.Log(model.Strummed[most]);
            sums[1] += Math.Log(model.Picked[most]);
        }
        return sums;
    }

    /// <summary>A strike may fall on each place of a grid alike, so a finer grid explains it less well where it isn't needed.</summary>
    private double[] ByPlaces(BeatAxis axis, IEnumerable<Strike> strikes, ImmutableArray<Subdivision> grids)
    {
        var sums = grids.Select((_, i) => -Plainer * i).ToArray();
        foreach (var strike in strikes)
        {
            for (var g = 0; g < grids.Length; g++)
                sums[g] += Math.Log(model.Density(grids[g], strike.Place, axis.BeatLengthAt(strike.Place)));
        }
        return sums;
    }

    private static Func<int, Transitions> Changing(int states, double chance)
    {
        var way = StayOrChange.ByChance(chance, Enumerable.Repeat(-Math.Log(states), states).ToArray());
        return _ => way;
    }
}
