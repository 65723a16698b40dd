using Harkbook.Listening.Estimators.Beats.Rows;

namespace Harkbook.Training.BeatChecks;

/// <summary>The weights of a <see cref="BeatModel"/> as one vector.</summary>
internal static class Weights
{
    public static int Beat => 0;
    public static int FeltTempo => 2;
    public static int UsualTempo => 3;
    public static int Downbeat => StepFeatures.Count;
    public static int FeltMeter => Downbeat + 1;
    public static int Clues => Downbeat + 2;
    public static int BarsOfTwo => Downbeat + 3;
    public static int BarsOfThree => Downbeat + 4;
    public static int Frame => Downbeat + 5;
    public static int Tempo => Downbeat + 6;
    public static int Bar => Downbeat + 7;
    public static int Count => Downbeat + 8;

    public static string[] Names { get; } =
        [.. StepFeatures.Names, "downbeat", "felt meter", "clues", "bars of two", "bars of three", "a frame longer or shorter", "change of tempo", "irregular bar"];

    public static double[] Of(BeatModel m) =>
        [.. m.Step, m.Downbeat, m.FeltMeter, m.Clues, m.BarsOfTwo, m.BarsOfThree, m.Costs.Frame, m.Costs.Tempo, m.Costs.Bar];

    public static BeatModel With(this BeatModel m, double[] w) => m with
    {
        Step = w[..StepFeatures.Count],
        Downbeat = w[Downbeat], FeltMeter = w[FeltMeter], Clues = w[Clues], BarsOfTwo = w[BarsOfTwo], BarsOfThree = w[BarsOfThree],
        Costs = new(Math.Max(0, w[Frame]), Math.Max(0, w[Tempo]), Math.Max(0, w[Bar])),
    };
}
