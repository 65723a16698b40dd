using System.Collections.Immutable;
using Harkbook.Listening.Checking.Weighing;
using Harkbook.Listening.Estimators;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What is known of how guitars are played, in models/playing.json.</summary>
/// <param name="Spread">The deviation of a strike from its place, in seconds.</param>
/// <param name="Stray">The share of strikes that lie on no grid.</param>
/// <param name="Strummed">In strummed bars, the shares of strikes that sound 1, 2 … 6 strings.</param>
/// <param name="Picked">In picked bars, the same.</param>
/// <param name="Kept">How often a bar has in a place what the pattern of its section has there.</param>
/// <param name="Often">How often a place where the hand swings down on a beat, down between beats, and up is struck in a strummed bar.</param>
/// <param name="MutedShare">How many of the strokes are muted.</param>
/// <param name="Evidence">What the log-odds of a stroke are worth; bars of one section err alike, so it is less than 1.</param>
/// <param name="Order">What the order in which strings speak is worth for a stroke's direction.</param>
/// <param name="Pendulum">How often the hand goes as it swings.</param>
/// <param name="Weights">What features are worth: of a stroke and a muted one against nothing, of a picked note for its being right, of a note for its
/// being joined to the one before, and slid to.</param>
internal sealed record PlayingModel(
    double Spread, double Stray, ImmutableArray<double> Strummed, ImmutableArray<double> Picked, double Kept, ImmutableArray<double> Often,
    double MutedShare, double Evidence, double Order, double Pendulum,
    ImmutableDictionary<string, ImmutableDictionary<string, double>> Weights)
{
    public static PlayingModel Shipped { get; } = FittedNumbers.Read<File>("playing.json").Numbers;

    public WeigherModel Stroke { get; } = Of(Weights, "stroke");

    public WeigherModel Muted { get; } = Of(Weights, "muted");

    public WeigherModel Note { get; } = Of(Weights, "note");

    public WeigherModel Joined { get; } = Of(Weights, "joined");

    public WeigherModel Slid { get; } = Of(Weights, "slid");

    /// <summary>How likely a strike at a moment (in beats) is, where any place of a grid may be struck: a density over the beat.</summary>
    public double Density(Subdivision grid, double moment, double beatLength) => Stray + grid.Places.Sum(p => Peak(grid, Off(moment, p), beatLength));

    /// <summary>How likely it belongs to the nearest place, rather than to another or to none (0–1).</summary>
    public double ChanceOfPlace(Subdivision grid, double moment, double beatLength) =>
        Peak(grid, grid.Nearest(moment).Off, beatLength) / Density(grid, moment, beatLength);

    private double Peak(Subdivision grid, double off, double beatLength) =>
        (1 - Stray) / grid.Places.Length * beatLength / (Spread * Math.Sqrt(2 * Math.PI)) * Math.Exp(-Math.Pow(off * beatLength / Spread, 2) / 2);

    private static double Off(double moment, Units.Beats place)
    {
        var off = moment - Math.Floor(moment) - place.Value;
        return off - Math.Round(off);
    }

    private static WeigherModel Of(ImmutableDictionary<string, ImmutableDictionary<string, double>> all, string kind) =>
        new(all[kind]["bias"], all[kind].Remove("bias"));

    private sealed record File(PlayingModel Numbers);
}
