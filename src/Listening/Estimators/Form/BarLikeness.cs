namespace Harkbook.Listening.Estimators.Form;

/// <summary>How alike any two bars are, 0 to 1: the self-similarity matrix of J. Foote, "Automatic audio segmentation using a measure of audio novelty", ICME
/// 2000, on bars.</summary>
internal sealed class BarLikeness
{
    private const double HarmonyShare = 0.65;
    private readonly double[,] alike;

    private BarLikeness(double[,] alike) => this.alike = alike;

    public int Bars => alike.GetLength(0);

    public double this[int a, int b] => alike[a, b];

    public static BarLikeness Of(BarSound sound)
    {
        var colour = Distances(sound.Colour);
        var usual = Math.Max(0.3, colour.Cast<double>().Average());
        var harmony = Distances(sound.Harmony);
        var alike = new double[sound.Bars, sound.Bars];
        for (var a = 0; a < sound.Bars; a++)
        {
            for (var b = 0; b < sound.Bars; b++)
                alike[a, b] = HarmonyShare * Math.Exp(-Math.Pow(harmony[a, b] / 0.9, 2))
                    + (1 - HarmonyShare) * Math.Exp(-Math.Pow(colour[a, b] / (1.5 * usual), 2));
        }
        return new(alike);
    }

    /// <summary>The mean likeness of two stretches of bars, laid side by side at the place where they match best.</summary>
    public double OfStretches(int a, int aEnd, int b, int bEnd)
    {
        var length = Math.Min(aEnd - a, bEnd - b);
        var best = 0.0;
        for (var shift = 0; shift <= Math.Abs(aEnd - a - (bEnd - b)); shift++)
        {
            var sum = 0.0;
            for (var k = 0; k < length; k++)
                sum += aEnd - a > bEnd - b ? alike[a + shift + k, b + k] : alike[a + k, b + shift + k];
            best = Math.Max(best, sum / length);
        }
        return best;
    }

    /// <summary>Foote's novelty before each bar, with a checkerboard of <paramref name="reach"/> bars each way; shape (bars).</summary>
    public double[] Novelty(int reach)
    {
        var novelty = new double[Bars];
        for (var bar = 2; bar < Bars - 1; bar++)
        {
            var r = Math.Min(reach, Math.Min(bar, Bars - bar));
            novelty[bar] = (Block(bar - r, bar - r, r) + Block(bar, bar, r)) / 2 - Block(bar - r, bar, r);
        }
        return novelty;
    }

    private double Block(int a, int b, int size)
    {
        var sum = 0.0;
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j < size; j++)
                sum += alike[a + i, b + j];
        }
        return sum / (size * size);
    }

    private static double[,] Distances(double[][] vectors)
    {
        var distances = new double[vectors.Length, vectors.Length];
        for (var a = 0; a < vectors.Length; a++)
        {
            for (var b = 0; b < vectors.Length; b++)
                distances[a, b] = Math.Sqrt(vectors[a].Zip(vectors[b], (x, y) => (x - y) * (x - y)).Sum());
        }
        return distances;
    }
}
