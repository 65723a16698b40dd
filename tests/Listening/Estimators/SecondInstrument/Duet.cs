using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Audio.Synthesis.Reeds;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.SecondInstrument;

/// <summary>Strummed strings, with or without reeds over them, whose notes are known because they were written down first.</summary>
internal static class Duet
{
    private const double Beat = 0.5;
    private static readonly SampleRate Rate = SampleRate.FromHertz(22_050);

    /// <summary>Open-position shapes, common practice: G, C, D7 with their sounding pitches from the low string up.</summary>
    private static readonly int[][] Shapes = [[43, 47, 50, 55, 59, 67], [-1, 48, 52, 55, 60, 64], [43, 47, 50, 55, 59, 67], [-1, -1, 50, 57, 60, 66]];

    public static Signal Guitar(double seconds)
    {
        var strings = Enumerable.Range(0, 6).Select(_ => new List<Pluck>()).ToArray();
        for (var bar = 0; bar * 4 * Beat < seconds - 1; bar++)
        {
            foreach (var at in new[] { 0, 1, 1.5, 2, 3, 3.5 })
                Strum(strings, Shapes[bar % Shapes.Length], (4 * bar + at) * Beat);
        }
        return new StringInstrument(Rate, StringSet.Steel, 3).Sound(strings, Seconds.FromSeconds(seconds));
    }

    /// <param name="holes">One breath a beat from beat 4 on; "." rests, &amp; joins holes.</param>
    public static (Signal Sound, Annotation Truth) With(Harmonica harp, string holes, double decibels)
    {
        var breaths = holes.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var notes = breaths.SelectMany((breath, i) => breath.Split('&').Where(h => h != ".").Select(h => (Hole: HarpNote.Parse(h), Onset: (4 + i) * Beat)))
            .ToArray();
        var length = (6 + breaths.Length) * Beat;
        var reeds = new FreeReed(Rate, 5).Sound(notes.Select(n => new ReedNote(
            Seconds.FromSeconds(n.Onset), Seconds.FromSeconds(n.Onset + 0.43), Hertz.A440 * Math.Pow(2, (harp.PitchOf(n.Hole).Midi - 69) / 12.0), 0.7)),
                Seconds.FromSeconds(length));
        var guitar = Guitar(length);
        var level = 20 * Math.Log10(Rms(guitar) / Rms(reeds));
        var truth = new Annotation
        {
            Duration = length,
            Lines = [new(LineKind.Harmonica, [],
                [.. notes.Select(n => new AnnotatedLineNote(new ScoredNote(n.Onset, n.Onset + 0.43, harp.PitchOf(n.Hole).Midi), n.Hole))], harp.Key)],
        };
        return (Mixer.Sum(Rate, [new(guitar), new(reeds, level + decibels)]).ToMono(), truth);
    }

    public static ImmutableArray<HeardKey> InKey(string key) => [new(default, Seconds.FromSeconds(60), new(new Candidate<Key>(Key.Parse(key), 0.7)))];

    private static void Strum(List<Pluck>[] strings, int[] shape, double at)
    {
        for (var s = 0; s < 6; s++)
        {
            if (shape[s] > 0)
                strings[s].Add(new(Seconds.FromSeconds(at + 0.006 * s), Seconds.FromSeconds(at + 2), Hertz.A440 * Math.Pow(2, (shape[s] - 69) / 12.0), 0.6));
        }
    }

    private static double Rms(Signal signal) => Math.Sqrt(signal.Channels[0].Average(x => (double)x * x));
}
