using Harkbook.Audio.Signals;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Finds the peaks of one frame's spectrum, in frequency by a parabola through the logarithms of three bins
/// (J. O. Smith and X. Serra, "PARSHL", ICMC 1987). One instance serves one thread.
/// </summary>
internal sealed class PartialReader
{
    public const int Size = 4096, BriefSize = 1024;
    private const int WindowLength = 3072, BriefLength = 768;
    private const double LowestHertz = 65, HighestHertz = 8000;
    private const float Floor = 1e-4f;

    private static readonly float[] Hann = Window.Hann(WindowLength);
    private static readonly float[] BriefHann = Window.Hann(BriefLength);

    private readonly Analysis usual = new(Size, Hann);
    private readonly Analysis brief = new(BriefSize, BriefHann);
    private readonly float[] briefOther = new float[BriefSize / 2 + 1];
    private readonly float[] left = new float[Size / 2 + 1];
    private readonly float[] right = new float[Size / 2 + 1];
    private readonly float[] both = new float[Size / 2 + 1];
    private readonly List<(int Bin, float Level)> peaks = [];

    /// <param name="sound">One or two channels.</param>
    /// <param name="centre">The frame's middle sample.</param>
    public void Read(Signal sound, int centre, PartialFrame into)
    {
        Spectra(sound, centre);
        ReadBrief(sound, centre, into);
        var binHertz = (double)sound.Rate.Hertz / Size;
        FindPeaks((int)(LowestHertz / binHertz), Math.Min(Size / 2 - 2, (int)(HighestHertz / binHertz)));
        into.Clear();
        foreach (var (bin, _) in peaks)
        {
            var (a, b, c) = (MathF.Log(both[bin - 1] + 1e-9f), MathF.Log(both[bin]), MathF.Log(both[bin + 1] + 1e-9f));
            var shift = 0.5f * (a - c) / (a - 2 * b + c - 1e-9f);
            var (l, r) = (left[bin] * left[bin], right[bin] * right[bin]);
            into.Add((float)((bin + shift) * binHertz), MathF.Exp(b - 0.25f * (a - c) * shift), (r - l) / (r + l + 1e-12f));
        }
    }

    private void Spectra(Signal sound, int centre)
    {
        usual.Magnitudes(sound.Channels[0], centre, left);
        if (sound.Channels.Count == 1)
        {
            left.CopyTo(both, 0);
            left.CopyTo(right, 0);
            return;
        }
        usual.Magnitudes(sound.Channels[1], centre, right);
        for (var k = 0; k < both.Length; k++)
            both[k] = MathF.Sqrt(0.5f * (left[k] * left[k] + right[k] * right[k]));
    }

    private void ReadBrief(Signal sound, int centre, PartialFrame into)
    {
        into.BriefHertz = (double)sound.Rate.Hertz / BriefSize;
        brief.Magnitudes(sound.Channels[0], centre, into.Brief);
        if (sound.Channels.Count == 1)
            return;
        brief.Magnitudes(sound.Channels[1], centre, briefOther);
        for (var k = 0; k < briefOther.Length; k++)
            into.Brief[k] = MathF.Sqrt(0.5f * (into.Brief[k] * into.Brief[k] + briefOther[k] * briefOther[k]));
    }

    /// <summary>Local maxima over two bins on either side, at most 60 dB below the loudest; the loudest are kept, in order of frequency.</summary>
    private void FindPeaks(int from, int to)
    {
        peaks.Clear();
        var loudest = 0f;
        for (var k = from; k < to; k++)
            loudest = Math.Max(loudest, both[k]);
        var least = Math.Max(Floor, 0.001f * loudest);
        for (var k = Math.Max(2, from); k < to; k++)
        {
            var level = both[k];
            if (level > least && level >= both[k - 1] && level > both[k + 1] && level > both[k - 2] && level > both[k + 2])
                peaks.Add((k, level));
        }
        if (peaks.Count <= PartialFrame.Most)
            return;
        peaks.Sort((a, b) => b.Level.CompareTo(a.Level));
        peaks.RemoveRange(PartialFrame.Most, peaks.Count - PartialFrame.Most);
        peaks.Sort((a, b) => a.Bin.CompareTo(b.Bin));
    }

    /// <summary>One window and its transform.</summary>
    private sealed class Analysis(int size, float[] window)
    {
        private readonly RealFft fft = new(size);
        private readonly float[] frame = new float[size];
        private readonly Bin[] bins = new Bin[size / 2 + 1];
        private readonly float scale = 2 / window.Sum();

        /// <summary>Amplitudes: a sine of amplitude 1 on a bin gives 1.</summary>
        public void Magnitudes(float[] samples, int centre, float[] into)
        {
            var from = centre - window.Length / 2;
            Array.Clear(frame);
            for (var n = Math.Max(0, -from); n < Math.Min(window.Length, samples.Length - from); n++)
                frame[n] = samples[from + n] * window[n];
            fft.Forward(frame, bins);
            for (var k = 0; k < into.Length; k++)
                into[k] = scale * bins[k].Magnitude;
        }
    }
}
