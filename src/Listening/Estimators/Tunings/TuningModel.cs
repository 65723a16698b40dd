using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>The fitted numbers of models/tunings.json, which says what each means.</summary>
internal sealed record TuningModel(Calibration Sureness, double Stiffness, double InHand, double BothShare, double FewOpen, double ClosedCapo,
    TuningModel.OfHand Hand, TuningModel.OfShape Shape)
{
    public static TuningModel Shipped { get; } = FittedNumbers.Read<TuningModel>("tunings.json");

    /// <summary>How a hand sounds pitches (<see cref="HandModel"/>).</summary>
    public sealed record OfHand(
        ImmutableArray<double> Places, ImmutableArray<double> Reach, double Silent, double Crossing, double Stray, double Overtone, double NoCut);

    /// <summary>How a player chooses a shape (<see cref="ShapeModel"/>).</summary>
    public sealed record OfShape(
        double Open, double Pressed, double PerFret, double Barre, double PerPlace, double BelowBass, double Left, double Stray, double Overtone);
}
