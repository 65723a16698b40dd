using Harkbook.Audio.Signals;
using MathNet.Numerics.IntegralTransforms;

namespace Harkbook.Bench.Speed;

/// <summary>Our real FFT against those of two libraries, on the same frames of noise.</summary>
internal static class TransformSpeed
{
    private const int Size = 4096;
    private const int Frames = 2000;
    private const int Rounds = 9;

    public static IEnumerable<Row> Measure()
    {
        var random = new Random(1);
        float[] frame = [.. Enumerable.Range(0, Size).Select(_ => random.NextSingle() - 0.5f)];
        string[] names = ["Harkbook's RealFft (NAudio's FftProcessor)", "NWaves 0.9.6, RealFft", "MathNet.Numerics 5.0.0, ForwardReal"];
        var times = Clocked.Medians(Rounds, [.. new[] { Ours(frame), NWaves(frame), MathNet(frame) }.Select<Action, Func<double>>(work => () => Clocked.Time(work))]);
        return names.Zip(times, (name, time) => new Row($"real FFT of {Size} samples: {name}", $"{Frames / time:#,0} a second", times[0] / time));
    }

    private static Action Ours(float[] frame)
    {
        var (fft, spectrum) = (new RealFft(Size), new Bin[Size / 2 + 1]);
        return () =>
        {
            for (var i = 0; i < Frames; i++)
                fft.Forward(frame, spectrum);
        };
    }

    private static Action NWaves(float[] frame)
    {
        var (fft, re, im) = (new global::NWaves.Transforms.RealFft(Size), new float[Size / 2 + 1], new float[Size / 2 + 1]);
        return () =>
        {
            for (var i = 0; i < Frames; i++)
                fft.Direct(frame, re, im);
        };
    }

    private static Action MathNet(float[] frame)
    {
        var data = new float[Size + 2];
        return () =>
        {
            for (var i = 0; i < Frames; i++)
            {
                frame.CopyTo(data, 0);
                Fourier.ForwardReal(data, Size, FourierOptions.NoScaling);
            }
        };
    }
}
