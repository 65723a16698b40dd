using System.Collections.Immutable;
using Harkbook.Listening.Estimators;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>What is known of how guitars are played, in models/playing.json.</summary>
/// <param name="Spread">The deviation of a strike from its place, in seconds.</param>
/// <param name="Stray">The share of strikes that lie on no grid.</param>
/// <param name="Strummed">In strummed bars, the shares of strikes that sound 1, 2 … 6 strings.</param>
/// <param name="Picked">In picked bars, the same.</param>
/// <param name="Kept">How often a bar has in a place what the pattern of its section has there.</param>
/// <param name="Often">How often a beat, and a place between beats, is struck in a strummed bar.</param>
/// <param name="Evidence">What the log-odds of a stroke are worth; bars of one section err alike, so it is less than 1.</param>
/// <param name="Order">What the order in which strings speak is worth for a stroke's direction.</param>
/// <param name="Pendulum">How often the hand goes down on a beat and up between.</param>
/// <param name="Muted">How often a stroke is muted.</param>
/// <param name="Note">What features of a picked note are worth for its being right, and the bias.</param>
internal sealed record PlayingModel(
    double Spread, double Stray, ImmutableArray<double> Strummed, ImmutableArray<double> Picked, double Kept, ImmutableArray<double> Often,
    double Evidence, double Order, double Pendulum, double Muted, ImmutableDictionary<string, double> Note)
{
    public static PlayingModel Shipped { get; } = FittedNumbers.Read<File>("playing.json").Numbers;

    private sealed record File(PlayingModel Numbers);
}
