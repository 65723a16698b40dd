using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Stiffness;

/// <summary>The stiffness of strings whose partials lie where the formula puts them: n·f₁·√((1 + B·n²)/(1 + B)), Fletcher, JASA 36, 1964.</summary>
public class StiffnessScanTests
{
    private const int Start = 4410;

    private static readonly SampleRate Rate = SampleRate.FromHertz(22_050);

    [Theory]
    [InlineData(40, -3.8)]
    [InlineData(45, -4.1)]
    [InlineData(55, -4.6)]
    [InlineData(59, -4.2)]
    [InlineData(59, -3.7)]
    [InlineData(64, -4.7)]
    public void ANoteAloneIsAsStiffAsItWasMade(int midi, double logB) => Assert.InRange(Best([(midi, logB)])[0] - logB, -0.11, 0.11);

    [Fact]
    public void NotesOfAChordAreToldApart()
    {
        // D major as fretted in standard tuning: plain strings of a light set two and three frets up, a wound third and fourth.
        (int, double)[] chord = [(50, -4.35), (57, -4.5), (62, -4.05), (66, -4.6)];
        Assert.All(Best(chord).Zip(chord), pair => Assert.InRange(pair.First - pair.Second.Item2, -0.16, 0.16));
    }

    [Fact]
    public void NoiseSaysNothing()
    {
        var random = new Random(5);
        var noise = new Signal(Rate, Enumerable.Range(0, 22_050).Select(_ => (float)(random.NextDouble() - 0.5)).ToArray());
        var note = Note(50);
        var logs = StiffnessScan.Of(noise, [note], Hertz.A440, TestContext.Current.CancellationToken).LogsOf(note)!;
        // Of a likelihood over 47 values none stands far over the mean of all.
        Assert.InRange(1 / logs.Average(l => Math.Exp(l)), 1, 6);
    }

    [Fact]
    public void ANoteTooShortToTellHasNone() =>
        Assert.Null(StiffnessScan.Of(Sound([(50, -4.3)]), [Note(50) with { End = Seconds.FromSeconds(0.25) }], Hertz.A440,
            TestContext.Current.CancellationToken).LogsOf(Note(50)));

    [Fact]
    public void WhatIsKeptReadsBack()
    {
        var evidence = StiffnessScan.Of(Sound([(50, -4.3)]), [Note(50)], Hertz.A440, TestContext.Current.CancellationToken);
        Assert.Equal(evidence.LogsOf(Note(50)), StiffnessEvidence.OfBytes(evidence.Bytes.ToArray()).LogsOf(Note(50)));
        Assert.Throws<FormatException>(() => StiffnessEvidence.OfBytes(new byte[7]));
    }

    private static double[] Best((int Midi, double LogB)[] strings)
    {
        HeardNote[] notes = [.. strings.Select(s => Note(s.Midi))];
        var evidence = StiffnessScan.Of(Sound(strings), [.. notes], Hertz.A440, TestContext.Current.CancellationToken);
        return [.. notes.Select(n => StiffnessGrid.At(Array.IndexOf(evidence.LogsOf(n)!, 0f)))];
    }

    private static HeardNote Note(int midi) => new(midi, Seconds.FromSeconds(0.2), Seconds.FromSeconds(0.9), 1, 0.5);

    private static Signal Sound((int Midi, double LogB)[] strings)
    {
        var samples = new float[Rate.Hertz];
        foreach (var (midi, logB) in strings)
        {
            var (first, b) = (440 * Math.Pow(2, (midi - 69) / 12.0), Math.Pow(10, logB));
            for (var n = 1; n <= 30 && n * first < 9000; n++)
            {
                var hertz = n * first * Math.Sqrt((1 + b * n * n) / (1 + b));
                for (var i = Start; i < samples.Length; i++)
                {
                    var t = (double)(i - Start) / Rate.Hertz;
                    samples[i] += (float)(0.1 / n * Math.Exp(-t * (1 + hertz / 800)) * Math.Sin(2 * Math.PI * hertz * t + n));
                }
            }
        }
        return new(Rate, samples);
    }
}
