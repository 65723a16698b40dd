namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>A pitch followed through time: one tone a frame, from frame <see cref="First"/> on; frames that were bridged repeat the tone before.</summary>
internal sealed class Strand(int first, List<Tone> tones)
{
    public int First { get; } = first;

    public List<Tone> Tones { get; } = tones;

    public int Length => Tones.Count;

    public int End => First + Length;

    public float MedianMidi { get; } = Median(tones);

    public Strand Part(int from, int to) => new(First + from, Tones.GetRange(from, to - from));

    /// <summary>10·log10 of the power of a tone's harmonics from one to another (1 is the first).</summary>
    public float Decibels(int frame, int firstHarmonic = 1, int lastHarmonic = Tone.Harmonics)
    {
        var tone = Tones[frame];
        var power = 1e-10f;
        for (var h = firstHarmonic; h <= lastHarmonic; h++)
            power += tone.Level[h - 1] * tone.Level[h - 1];
        return 10 * MathF.Log10(power);
    }

    /// <summary>The level in dB through the short window.</summary>
    public float BriefDecibels(int frame) => 10 * MathF.Log10(1e-10f + Tones[frame].BriefPower);

    private static float Median(List<Tone> tones)
    {
        var sorted = tones.Select(t => t.Midi).Order().ToArray();
        return sorted[sorted.Length / 2];
    }
}
