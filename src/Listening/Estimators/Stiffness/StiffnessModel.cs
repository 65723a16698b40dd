namespace Harkbook.Listening.Estimators.Stiffness;

/// <summary>The fitted numbers of models/stiffness.json, which says what each means.</summary>
internal sealed record StiffnessModel(StiffnessModel.OfPartials Partials, StringModel Strings)
{
    private static readonly Lazy<StiffnessModel> Read = new(() => FittedNumbers.Read<StiffnessModel>("stiffness.json"));

    public static StiffnessModel Shipped => Read.Value;

    /// <summary>How partials show their string's stiffness (<see cref="StiffnessLikelihood"/>).</summary>
    public sealed record OfPartials(
        double Shown, double ShownFall, double Spread, double LowSpread, double BinShare, double Noise, double NoiseFall, double OfOther,
        double Stray, double PitchSpread,
        double Temper, double TemperPerOther);
}
