namespace Harkbook.Listening.Evidence;

/// <summary>What speaks for beats, bars and tempo, 50 times a second. Frame f stands for f / <see cref="FrameRate"/> seconds.</summary>
internal sealed class PulseEvidence
{
    /// <summary>The meters that are told apart: 2/4, 3/4, 4/4, 6/8, 12/8.</summary>
    public const int Meters = 5;

    /// <summary>Tempi from 32 beats a minute, twenty to an octave.</summary>
    public const int Tempi = 64;

    /// <summary>Values a frame.</summary>
    public const int Width = 3 + Meters + Tempi;

    public PulseEvidence(int frames) =>
        (Beat, Downbeat, Change, Meter, Tempo) = (new float[frames], new float[frames], new float[frames], new float[frames, Meters], new float[frames, Tempi]);

    public static double FrameRate => PulseBands.FrameRate;

    /// <summary>The chance that a beat falls on the frame; shape (frames).</summary>
    public float[] Beat { get; }

    /// <summary>The chance that a bar starts on the frame; shape (frames).</summary>
    public float[] Downbeat { get; }

    /// <summary>The chance that another chord starts on the frame; shape (frames).</summary>
    public float[] Change { get; }

    /// <summary>Shares that sum to 1 in each frame; shape (frames, 5).</summary>
    public float[,] Meter { get; }

    /// <summary>Shares that sum to 1 in each frame; shape (frames, 64).</summary>
    public float[,] Tempo { get; }

    public int Frames => Beat.Length;

    /// <summary>The highest value of a curve on a frame and its neighbours; beyond the ends stand the first and the last.</summary>
    public static float Top(float[] curve, int frame)
    {
        float At(int f) => curve[Math.Clamp(f, 0, curve.Length - 1)];
        return Math.Max(At(frame), Math.Max(At(frame - 1), At(frame + 1)));
    }

    /// <summary>Rounds all to the 65,535 steps in which evidence is kept, so that what is heard and what is read back are the same.</summary>
    public PulseEvidence Rounded()
    {
        var steps = new ushort[Frames * Width];
        GiveSteps(steps);
        TakeSteps(steps);
        return this;
    }

    /// <summary>Fills frames × <see cref="Width"/> steps: beat, downbeat, change, meters, tempi.</summary>
    public void GiveSteps(Span<ushort> steps)
    {
        for (var f = 0; f < Frames; f++)
        {
            var row = steps.Slice(f * Width, Width);
            (row[0], row[1], row[2]) = (Step(Beat[f]), Step(Downbeat[f]), Step(Change[f]));
            for (var m = 0; m < Meters; m++)
                row[3 + m] = Step(Meter[f, m]);
            for (var t = 0; t < Tempi; t++)
                row[3 + Meters + t] = Step(Tempo[f, t]);
        }

        static ushort Step(float value) => (ushort)(Math.Clamp(value, 0, 1) * ushort.MaxValue + 0.5f);
    }

    /// <param name="steps">As <see cref="GiveSteps"/> gives them.</param>
    public void TakeSteps(ReadOnlySpan<ushort> steps)
    {
        for (var f = 0; f < Frames; f++)
        {
            var row = steps.Slice(f * Width, Width);
            (Beat[f], Downbeat[f], Change[f]) = (Value(row[0]), Value(row[1]), Value(row[2]));
            for (var m = 0; m < Meters; m++)
                Meter[f, m] = Value(row[3 + m]);
            for (var t = 0; t < Tempi; t++)
                Tempo[f, t] = Value(row[3 + Meters + t]);
        }

        static float Value(ushort step) => step / (float)ushort.MaxValue;
    }

    /// <summary>Makes nothing known of meter and tempo in a frame, but how usual the meters are (our own estimate).</summary>
    public void Forget(int frame)
    {
        ReadOnlySpan<float> usual = [0.15f, 0.2f, 0.5f, 0.1f, 0.05f];
        for (var m = 0; m < Meters; m++)
            Meter[frame, m] = usual[m];
        for (var t = 0; t < Tempi; t++)
            Tempo[frame, t] = 1f / Tempi;
    }

    /// <summary>Beats a minute of a tempo's place in <see cref="Tempo"/>.</summary>
    public static double BeatsPerMinute(double place) => 32 * Math.Pow(2, place / 20);

    /// <summary>The place in <see cref="Tempo"/>, not rounded.</summary>
    public static double PlaceOf(double beatsPerMinute) => 20 * Math.Log2(beatsPerMinute / 32);
}
