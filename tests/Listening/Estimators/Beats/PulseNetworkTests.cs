using System.Globalization;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Tests.Estimators.Beats;

/// <summary>
/// The program must give the network just what it was trained on. The fixtures were written by the training program
/// (training/beats/parity.py), which shares no code with this one, from a sound that a formula tells.
/// </summary>
public class PulseNetworkTests
{
    private const int Rate = 22_050;

    [Fact]
    public void TheBandsAreThoseOfTheTraining()
    {
        var bands = Bands(Sound());
        Assert.Equal(301 * PulseBands.Count, bands.Length);
        foreach (var row in Rows("bands.csv"))
        {
            for (var b = 0; b < PulseBands.Count; b++)
                Assert.Equal(row[1 + b], bands[(int)row[0] * PulseBands.Count + b], 1e-4);
        }
    }

    [Fact]
    public void TheOutputsAreThoseOfTheTraining()
    {
        using var network = PulseNetwork.Shipped();
        var token = TestContext.Current.CancellationToken;
        var evidence = network.Weigh(new PulseBands(new Signal(PulseBands.Rate, Sound())), token);
        foreach (var row in Rows("outputs.csv"))
        {
            var frame = (int)row[0];
            Assert.Equal(row[1], evidence.Beat[frame], 1e-3);
            Assert.Equal(row[2], evidence.Downbeat[frame], 1e-3);
            for (var m = 0; m < PulseEvidence.Meters; m++)
                Assert.Equal(row[3 + m], evidence.Meter[frame, m], 1e-3);
            for (var t = 0; t < PulseEvidence.Tempi; t++)
                Assert.Equal(row[3 + PulseEvidence.Meters + t], evidence.Tempo[frame, t], 1e-3);
        }
    }

    [Fact]
    public void LoudnessMakesNoDifference()
    {
        var (loud, soft) = (Bands(Sound()), Bands([.. Sound().Select(x => x / 64)]));
        Assert.All(loud.Zip(soft), pair => Assert.Equal(pair.First, pair.Second, 1e-4));
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(120, 77)]
    [InlineData(300, 1)]
    public void AnyFramesAreThoseOfTheWhole(int first, int frames)
    {
        const int Moments = PulseBands.Moments.Bands;
        var bands = new PulseBands(new Signal(PulseBands.Rate, Sound()));
        var (part, moments, token) = (new float[frames * PulseBands.Count], new float[frames * Moments], TestContext.Current.CancellationToken);
        bands.Fill(first, frames, part, token);
        bands.FillMoments(first, frames, moments, token);
        Assert.Equal(Bands(Sound()).AsSpan(first * PulseBands.Count, frames * PulseBands.Count), part.AsSpan());
        for (var f = 0; f < frames; f++)
            Assert.Equal(part.AsSpan(f * PulseBands.Count, Moments), moments.AsSpan(f * Moments, Moments));
    }

    private static float[] Bands(float[] samples)
    {
        var bands = new PulseBands(new Signal(PulseBands.Rate, samples));
        var values = new float[bands.Frames * PulseBands.Count];
        bands.Fill(0, bands.Frames, values, TestContext.Current.CancellationToken);
        return values;
    }

    private static float[] Sound() =>
        [.. Enumerable.Range(0, 6 * Rate).Select(n => (float)Enumerable.Range(0, 12).Sum(k => Note(k, (double)n / Rate - 0.25 - 0.46 * k)))];

    private static double Note(int k, double u)
    {
        if (u < 0)
            return 0;
        var hertz = 110 * Math.Pow(2, k * 5 % 12 / 12.0);
        return Math.Exp(-u / 0.2) * (0.5 * Math.Sin(2 * Math.PI * hertz * u) + 0.2 * Math.Sin(8 * Math.PI * hertz * u)
            + 0.1 * Math.Sin(2 * Math.PI * 2500 * u) * Math.Exp(-u / 0.01));
    }

    private static double[][] Rows(string name) =>
        [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Fixtures", "Beats", name))
            .Select(l => l.Split(',').Select(x => double.Parse(x, CultureInfo.InvariantCulture)).ToArray())];
}
