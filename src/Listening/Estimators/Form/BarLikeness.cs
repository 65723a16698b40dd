namespace Harkbook.Listening.Estimators.Form;

/// <summary>How alike any two bars are, 0 to 1: the self-similarity matrix of J. Foote, "Automatic audio segmentation using a measure of audio novelty", ICME
/// 2000, on bars.</summary>
internal sealed class BarLikeness
{
    private readonly double[,] alike, sound;

    private BarLikeness(double[,] alike, double[,] sound) => (this.alike, this.sound) = (alike, sound);

    public int Bars => alike.GetLength(0);

    public double this[int a, int b] => alike[a, b];

    public static BarLikeness Of(BarSound bars, FormModel model)
    {
        var (harmony, colour, texture) = (Distances(bars.Harmony), Distances(bars.Colour), Distances(bars.Texture));
        var usual = Math.Max(0.3, colour.Cast<double>().Average());
        var (alike, sound) = (new double[bars.Bars, bars.Bars], new double[bars.Bars, bars.Bars]);
        for (var a = 0; a < bars.Bars; a++)
        {
            for (var b = 0; b < bars.Bars; b++)
            {
                var (h, c, t) = (Near(harmony[a, b], 0.9), Near(colour[a, b], 1.5 * usual), Near(texture[a, b], 0.5));
                sound[a, b] = (model.Colour * c + model.Texture * t) / (model.Colour + model.Texture);
                alike[a, b] = (h + model.Colour * c + model.Texture * t) / (1 + model.Colour + model.Texture);
            }
        }
        return new(alike, sound);
    }

    /// <summary>What two different bars of the song are alike on the mean.</summary>
    public double Usual() => Mean(alike);

    /// <summary>The same without harmony.</summary>
    public double UsualSound() => Mean(sound);

    /// <summary>
    /// For each start and length up to the longest, how alike the stretch is to the most alike other one, bar by bar; 0 where there is no room.
    /// </summary>
    public double[,] Repeats(int longest)
    {
        var best = new double[Bars, longest + 1];
        for (var lag = 1; lag < Bars; lag++)
        {
            for (var a = 0; a + lag < Bars; a++)
            {
                var sum = 0.0;
                for (var length = 1; length <= Math.Min(longest, Math.Min(lag, Bars - a - lag)); length++)
                {
                    sum += alike[a + length - 1, a + lag + length - 1];
                    best[a, length] = Math.Max(best[a, length], sum / length);
                    best[a + lag, length] = Math.Max(best[a + lag, length], sum / length);
                }
            }
        }
        return best;
    }

    /// <summary>How alike the bars of a stretch are among one another in colour and texture.</summary>
    public double Held(int from, int to)
    {
        var sum = 0.0;
        for (var a = from; a < to; a++)
        {
            for (var b = from; b < to; b++)
                sum += sound[a, b];
        }
        return sum / ((to - from) * (to - from));
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
        for (var bar = 1; bar < Bars; bar++)
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
                sum += (alike[a + i, b + j] + sound[a + i, b + j]) / 2;
        }
        return sum / (size * size);
    }

    private static double Near(double distance, double usual) => Math.Exp(-Math.Pow(distance / usual, 2));

    private static double Mean(double[,] values)
    {
        var n = values.GetLength(0);
        return n < 2 ? 1 : (values.Cast<double>().Sum() - n) / (n * (n - 1.0));
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
