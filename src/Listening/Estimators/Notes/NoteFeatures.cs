namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// What is looked at to say whether a pitch starts or sounds in a frame: its loudness before and after, that of its octaves,
/// fifths and neighbours (whose partials it could be mistaken for), its partials in the short spectrum and the general attack.
/// </summary>
internal sealed class NoteFeatures
{
    private const int PartialsLookedAt = 8;
    private const float Present = 1.2f;

    private static readonly int[] SustainedAt = [-12, -8, -5, -3, -1, 1, 3, 5, 8, 12];
    private static readonly int[] RisingAt = [-8, -5, -3, -2, -1, 0, 1, 2, 3, 5, 8];
    private static readonly int[] PromptAt = [-6, -4, -3, -2, -1, 0, 1, 2, 3, 4, 6];
    private static readonly int[] Relatives = [12, -12, 7, -7, 19, -19, 24, -24, 1, -1, 5, -5];

    private readonly NoteSalience salience;
    private readonly float[][] decades;
    private readonly float[] attack;

    public NoteFeatures(LogSpectrum spectrum, NoteSalience salience)
    {
        this.salience = salience;
        Frames = spectrum.Short.Length;
        decades = Decades(spectrum.Short);
        attack = Attack(decades);
    }

    public static int Count => SustainedAt.Length + RisingAt.Length + PromptAt.Length + 4 * Relatives.Length + 2 * PartialsLookedAt + 4;

    public int Frames { get; }

    /// <summary>Whether a pitch (0 = MIDI 36) is loud enough about a frame to be worth asking about.</summary>
    public bool IsPresent(int frame, int pitch)
    {
        for (var d = -6; d <= 8; d += 2)
        {
            if (salience.Sustained[frame + NoteSalience.FrameMargin + d][pitch + NoteSalience.PitchMargin] > Present)
                return true;
        }
        return false;
    }

    /// <summary>How much louder a pitch is two frames after a frame than two before.</summary>
    public float Rise(int frame, int pitch) =>
        Change(salience.Prompt, frame + NoteSalience.FrameMargin, pitch + NoteSalience.PitchMargin, 2, -2);

    /// <summary>The pitch's loudness just after a frame, 0 to 1.</summary>
    public float Strength(int frame, int pitch) =>
        Math.Clamp(salience.Prompt[frame + NoteSalience.FrameMargin + 3][pitch + NoteSalience.PitchMargin] / 3, 0, 1);

    public void Fill(int frame, int pitch, Span<float> features)
    {
        var (f, p, k) = (frame + NoteSalience.FrameMargin, pitch + NoteSalience.PitchMargin, 0);
        foreach (var d in SustainedAt)
            features[k++] = salience.Sustained[f + d][p];
        foreach (var d in RisingAt)
            features[k++] = salience.Rising[f + d][p];
        foreach (var d in PromptAt)
            features[k++] = salience.Prompt[f + d][p];
        foreach (var relative in Relatives)
        {
            features[k++] = salience.Sustained[f + 4][p + relative];
            features[k++] = Change(salience.Sustained, f, p + relative, 4, -6);
            features[k++] = Change(salience.Rising, f, p + relative, 3, -3);
            features[k++] = Change(salience.Prompt, f, p + relative, 2, -2);
        }
        FillPartials(f, HarmonicTemplates.LowestMidi + pitch, features.Slice(k, 2 * PartialsLookedAt));
        features[^4] = attack[f];
        features[^3] = attack[f + 1];
        features[^2] = attack[f - 1];
        features[^1] = (pitch - HarmonicTemplates.Pitches / 2) / 30f;
    }

    private void FillPartials(int frame, int midi, Span<float> features)
    {
        features.Clear();
        for (var n = 1; n <= PartialsLookedAt; n++)
        {
            var bin = LogSpectrum.BinOf(midi + 12 * Math.Log2(n));
            if (bin >= LogSpectrum.Bins)
                return;
            features[2 * n - 2] = decades[frame + 1][bin];
            features[2 * n - 1] = Math.Max(decades[frame + 1][bin], decades[frame + 2][bin])
                - Math.Max(decades[frame - 2][bin], decades[frame - 3][bin]);
        }
    }

    private static float Change(float[][] levels, int frame, int pitch, int after, int before) =>
        levels[frame + after][pitch] - levels[frame + before][pitch];

    private static float[][] Decades(float[][] spectrum)
    {
        var peaks = spectrum.Select(s => s.Max()).Order().ToArray();
        var loud = peaks[(int)(0.95 * (peaks.Length - 1))] + 1e-9f;
        return [.. Enumerable.Range(-NoteSalience.FrameMargin, spectrum.Length + 2 * NoteSalience.FrameMargin)
            .Select(f => Array.ConvertAll(spectrum[Math.Clamp(f, 0, spectrum.Length - 1)], a => MathF.Max(0, MathF.Log10(a / loud + 1e-6f) + 3)))];
    }

    private static float[] Attack(float[][] decades)
    {
        var attack = new float[decades.Length];
        for (var f = 1; f < decades.Length - 1; f++)
        {
            for (var b = 0; b < LogSpectrum.Bins; b++)
                attack[f] += MathF.Max(0, decades[f + 1][b] - decades[f - 1][b]) / 100;
        }
        return attack;
    }
}
