using Harkbook.Listening.Estimators.Stiffness;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>How well a guitar explains the stiffness of the notes' strings, and how well a hand suits the strings that it names.</summary>
internal sealed class StringFit
{
    private const double ManyOpen = 0.5;

    public StringFit(TuningEvidence evidence, Guitar guitar, StringModel? model = null)
    {
        Constants = StringConstants.Of(evidence.Stiff, evidence.Telling, guitar.Named.Tuning, guitar.Capo, model);
        int[] open = [.. TuningEstimator.Open(guitar)];
        var (any, named) = (new HandModel(open, ManyOpen, evidence.Hand), new HandModel(open, ManyOpen, evidence.Hand, Constants.Suits()));
        InHand = evidence.Ringing.Sum(set => set.Say * (named.LogChance(set.Pitches) - any.LogChance(set.Pitches)));
    }

    public StringConstants Constants { get; }

    /// <summary>The natural log of the chance that a hand that sounds these pitches takes the strings that stiffness names; 0 at best.</summary>
    public double InHand { get; }

    public double Weigh(double stiffness) => stiffness * Constants.LogLikelihood + TuningModel.Shipped.InHand * InHand;
}
