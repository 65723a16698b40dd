namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>
/// One polarisation of a vibrating string: a delay line closed on itself (Karplus &amp; Strong, "Digital synthesis of
/// plucked-string and drum timbres", CMJ 7(2), 1983) through the filters of <see cref="LoopTuning"/>.
/// </summary>
internal sealed class StringLoop
{
    private readonly double[] line;
    private readonly double[] dispersionIn = new double[LoopTuning.DispersionStages];
    private readonly double[] dispersionOut = new double[LoopTuning.DispersionStages];
    private readonly int fadeSamples;
    private LoopTuning tuning;
    private int write;
    private int oldDelay;
    private int fade;
    private double tuningIn, tuningOut, loss;
    private double choke = 1, chokeTarget = 1;
    private readonly double chokeStep;

    public StringLoop(LoopTuning tuning, int longest, double rate)
    {
        line = new double[(int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)(longest + 4))];
        fadeSamples = Math.Max(1, (int)(0.002 * rate));
        chokeStep = 1 - Math.Exp(-1 / (0.004 * rate));
        this.tuning = tuning;
        oldDelay = tuning.Delay;
    }

    /// <summary>Moves the finger: the length changes over two milliseconds while what rings goes on.</summary>
    public void Retune(LoopTuning to)
    {
        oldDelay = tuning.Delay;
        fade = fadeSamples;
        tuning = to;
    }

    /// <summary>Extra gain of a trip around the loop; below 1 damps.</summary>
    public void Choke(double gain) => chokeTarget = gain;

    public double Next(double excitation)
    {
        choke += chokeStep * (chokeTarget - choke);
        var y = Disperse(Lose(Tune(Read())));
        var sample = excitation + choke * y;
        line[write] = sample;
        write = (write + 1) & (line.Length - 1);
        return sample;
    }

    private double Read()
    {
        var now = line[(write - tuning.Delay) & (line.Length - 1)];
        if (fade == 0)
            return now;
        var share = (double)fade-- / fadeSamples;
        return now + share * (line[(write - oldDelay) & (line.Length - 1)] - now);
    }

    private double Tune(double x)
    {
        var y = tuning.Tuning * (x - tuningOut) + tuningIn;
        (tuningIn, tuningOut) = (x, y);
        return y;
    }

    private double Lose(double x) => loss = tuning.Gain * (1 - tuning.Pole) * x + tuning.Pole * loss;

    private double Disperse(double x)
    {
        for (var i = 0; i < dispersionIn.Length; i++)
        {
            var y = tuning.Dispersion * (x - dispersionOut[i]) + dispersionIn[i];
            (dispersionIn[i], dispersionOut[i]) = (x, y);
            x = y;
        }
        return x;
    }
}
