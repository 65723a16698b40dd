using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Voices;

/// <summary>
/// A voice-like line: a band-limited glottal wave (−12 dB an octave) through three formants that move from vowel to
/// vowel, with vibrato on held notes, glides between notes and a breath at each syllable. It sings no words.
/// </summary>
public sealed class VoiceLike(SampleRate rate, int seed)
{
    private const double GlideSeconds = 0.045;
    private const double BlockSeconds = 0.005;
    private static readonly double[] FormantBandwidth = [90, 110, 160];
    private static readonly double[] FormantGain = [1, 0.55, 0.28];
    private readonly double hertz = SynthesisRate.Required(rate).Hertz;

    /// <summary>One voice: a syllable ends where the next begins.</summary>
    public Signal Sound(IEnumerable<VoiceTone> tones, Seconds length, CancellationToken ct = default) => Blocks(tones, length, ct).Gathered(rate);

    /// <summary>The same a block at a time.</summary>
    public IEnumerable<float[]> Blocks(IEnumerable<VoiceTone> tones, Seconds length, CancellationToken ct)
    {
        var total = rate.SamplesIn(length);
        using var samples = Samples([.. tones.OrderBy(t => t.At)], total).GetEnumerator();
        for (var start = 0; start < total; start += NoteBuffer.BlockLength)
        {
            ct.ThrowIfCancellationRequested();
            var block = new float[Math.Min(NoteBuffer.BlockLength, total - start)];
            for (var n = 0; n < block.Length && samples.MoveNext(); n++)
                block[n] = samples.Current;
            yield return block;
        }
    }

    private IEnumerable<float> Samples(VoiceTone[] sung, int total)
    {
        if (sung.Length == 0)
            yield break;
        var singer = new Singer(hertz, new(seed), sung.Max(t => t.Frequency.Raised(t.Motion.Highest).Value), sung[0]);
        for (var n = rate.SamplesIn(sung[0].At); n > 0; n--)
            yield return 0;
        for (var i = 0; i < sung.Length; i++)
        {
            var from = rate.SamplesIn(sung[i].At);
            var to = Math.Min(total, i + 1 < sung.Length ? rate.SamplesIn(sung[i + 1].At) : total);
            for (var n = from; n < to; n++)
            {
                var sample = singer.Next(sung[i], n - from);
                if (n >= 0)
                    yield return sample;
            }
        }
    }

    /// <summary>What carries over from syllable to syllable: pitch, phase, the mouth's shape and its ringing.</summary>
    private sealed class Singer(double rate, Noise noise, double highest, VoiceTone first)
    {
        private readonly HarmonicTable glottis = new([.. Enumerable.Range(1, HarmonicTable.Fitting(highest, rate)).Select(h => (1 / Math.Pow(h, 1.7), 0.0))]);
        private readonly double[] formants = [.. first.Vowel.Formants];
        private readonly double[] cosines = new double[3];
        private readonly double[] state = new double[6];
        private OnePole level = OnePole.LowPass(14, rate);
        private OnePole level2 = OnePole.LowPass(30, rate);
        private double logPitch = Math.Log2(first.Frequency.Value), phase;

        /// <param name="n">Samples since the tone's start.</param>
        public float Next(VoiceTone tone, int n)
        {
            if (n % (int)(BlockSeconds * rate) == 0)
                Shape(tone.Vowel);
            return (float)(0.5 * Voiced(tone, n / rate, (tone.Until - tone.At).Value));
        }

        private double Voiced(VoiceTone tone, double t, double held)
        {
            logPitch += (Math.Log2(tone.Frequency.Value) - logPitch) * (1 - Math.Exp(-1 / (GlideSeconds / 3 * rate)));
            var vibrato = 0.018 * Math.Clamp((t - 0.25) / 0.3, 0, 1) * Math.Sin(2 * Math.PI * 5.4 * t);
            var moved = tone.Motion.IsStill ? 0 : tone.Motion.At(t, held).Value / 1200;
            phase += Math.Pow(2, logPitch + vibrato + moved) / rate;
            phase -= Math.Floor(phase);
            var open = t < held ? 1.0 : 0;
            var envelope = level2.Next(level.Next(open * tone.Strength * Consonant(t)));
            var source = envelope * (glottis.At(phase) + 0.012 * noise.Next());
            return Mouth(source + tone.Strength * open * 0.05 * Math.Exp(-t / 0.02) * noise.Next());
        }

        /// <summary>A short closing at the start of each syllable.</summary>
        private static double Consonant(double t) => t < 0.03 ? 0.15 : 1;

        private double Mouth(double x)
        {
            var sum = 0.05 * x;
            for (var i = 0; i < 3; i++)
                sum += FormantGain[i] * Resonate(i, x);
            return sum;
        }

        /// <summary>A two-pole resonator with peak gain about 1, whose state outlives changes of its centre.</summary>
        private double Resonate(int i, double x)
        {
            var r = Math.Exp(-Math.PI * FormantBandwidth[i] / rate);
            var sine = Math.Sqrt(1 - cosines[i] * cosines[i]);
            var y = (1 - r * r) * sine * x + 2 * r * cosines[i] * state[2 * i] - r * r * state[2 * i + 1];
            (state[2 * i], state[2 * i + 1]) = (y, state[2 * i]);
            return y;
        }

        private void Shape(Vowel vowel)
        {
            for (var i = 0; i < 3; i++)
            {
                formants[i] += 0.18 * (vowel.Formants[i] - formants[i]);
                cosines[i] = Math.Cos(2 * Math.PI * formants[i] / rate);
            }
        }
    }
}
