using System.Collections.Immutable;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>The fitted numbers of models/lines.json, which says what each means.</summary>
internal sealed record LineModel(
    ImmutableDictionary<LineKind, LineModel.OfKind> Kinds,
    double AgainstBeyond, double WordWeight, double PlaceWeight, double Odd, double Few, double Telling, double Most, double Price, double PricePerPhrase,
    LineModel.OfPresence Presence)
{
    public static LineModel Shipped { get; } = FittedNumbers.Read<LineModel>("lines.json");

    /// <summary>One kind of instrument.</summary>
    /// <param name="HeardAs">By the kind that the network hears, in the order of <see cref="LineNetwork.Kinds"/>.</param>
    public sealed record OfKind(ImmutableArray<double> HeardAs, double Usual, double Middle, double Spread, int Lowest, int Highest, double AgainstTogether)
    {
        /// <summary>The log chance of a phrase's word, as so many draws from how the kind is heard.</summary>
        public double Word(KindShares word) => Enumerable.Range(0, HeardAs.Length).Sum(h => word[h] / (word.Sum + 1e-9) * Math.Log(HeardAs[h]));

        /// <summary>The log chance of where a phrase lies, up to a constant.</summary>
        public double Place(double pitch) => -Math.Log(Spread) - 0.5 * Math.Pow((pitch - Middle) / Spread, 2);
    }

    /// <summary>Whether anything but the guitar sounds.</summary>
    public sealed record OfPresence(double Sure, double Enough, double Share, double UsualShare, double Offset, double Shortest, double Least);
}
