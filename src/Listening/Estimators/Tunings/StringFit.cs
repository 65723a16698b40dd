using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Stiffness;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>How well a guitar explains the stiffness of the notes' strings, in figures that <see cref="TuningWeigher"/> weighs beside the hand's.</summary>
internal sealed class StringFit
{
    /// <summary>The first say something only against the best of all candidates; the last is 0 where no note's stiffness is known.</summary>
    public static readonly ImmutableArray<string> Names = ["stiffness", "stiffness, each note", "in hand", "stiff as its strings", "on open strings", "known"];

    private const int LogChances = 3;
    private const double ManyOpen = 0.5, Least = -40;

    public StringFit(TuningEvidence evidence, Guitar guitar)
    {
        Constants = StringConstants.Of(evidence.Stiff, evidence.Telling, guitar.Named.Tuning, guitar.Capo);
        int[] open = [.. TuningEstimator.Open(guitar)];
        var (any, named) = (new HandModel(open, ManyOpen, evidence.Hand), new HandModel(open, ManyOpen, evidence.Hand, Constants.Suits()));
        var inHand = evidence.Ringing.Sum(set => set.Say * (named.LogChance(set.Pitches) - any.LogChance(set.Pitches)));
        var notes = Math.Max(1, evidence.Telling.Length);
        Features = [Constants.LogLikelihood, Constants.LogLikelihood / notes, inHand,
            Constants.Fits(evidence.Telling).Sum(f => f.Fitting) / (double)notes, Constants.OpenShare, 1];
    }

    public StringConstants Constants { get; }

    /// <summary>In the order of <see cref="Names"/>.</summary>
    public double[] Features { get; }

    /// <summary>Figures of candidates side by side; who wasn't asked for his strings is taken to have the worst of those who were.</summary>
    public static float[][] Against(IReadOnlyList<StringFit?> strings)
    {
        var asked = strings.OfType<StringFit>().ToArray();
        if (asked.Length == 0)
            return [.. strings.Select(_ => new float[Names.Length])];
        double Best(int k) => k < LogChances ? asked.Max(s => s.Features[k]) : 0;
        float[] best = [.. Names.Select((_, k) => (float)Best(k))], worst = [.. Names.Select((_, k) => (float)asked.Min(s => s.Features[k]))];
        return [.. strings.Select(s => Names.Select((_, k) => Math.Max((float)Least, (s is null ? worst[k] : (float)s.Features[k]) - best[k])).ToArray())];
    }
}
