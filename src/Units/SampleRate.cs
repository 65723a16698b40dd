namespace Harkbook.Units;

/// <summary>Samples a second of one channel. No signal has a default rate.</summary>
public readonly record struct SampleRate
{
    private SampleRate(int hertz) => Hertz = hertz;

    /// <summary>Whole samples a second, 1000 to 768 000.</summary>
    public int Hertz { get; }

    public static SampleRate FromHertz(int hertz) =>
        hertz is >= 1000 and <= 768_000
            ? new(hertz)
            : throw new ArgumentOutOfRangeException(nameof(hertz), hertz, "A sample rate lies between 1000 and 768 000 Hz.");

    /// <summary>The number of whole samples nearest to a length of time.</summary>
    public int SamplesIn(Seconds time) => checked((int)Math.Round(time.Value * Hertz));

    public Seconds TimeOf(double sample) => Seconds.FromSeconds(sample / Hertz);

    public override string ToString() => $"{Hertz} Hz";
}
