using System.Globalization;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.SecondInstrument;

/// <summary>
/// The program must give the network just what it was trained on. The fixtures were written by the training program
/// (training/lines/parity.py), which shares no code with this one, from a second of sound that a formula tells.
/// </summary>
public class LineNetworkTests
{
    private const int Rate = 22_050, Frames = 86;

    private static readonly (double Start, double Hertz, double Amplitude, double Decay)[] Struck =
        [(0.10, 110.5, 0.5, 2.0), (0.30, 196.9, 0.3, 3.0), (0.55, 331.1, 0.2, 4.0)];

    [Fact]
    public void PlacesAreThoseOfTheTraining()
    {
        var values = Input(Sound());
        var rows = Rows("line-places.csv");
        Assert.Contains(rows, r => Number(r[2]) > 0.15);
        Assert.All(rows.Where(r => Number(r[0]) < Frames),
            r => Assert.Equal(Number(r[2]), values[(2 * Frames + (int)Number(r[0])) * LogSpectrum.Bins + (int)Number(r[1])], 1e-3));
    }

    [Fact]
    public void TheOutputsAreThoseOfTheTraining()
    {
        using var network = LineNetwork.Shipped();
        var (kinds, onset, off) = network.Weigh(Input(Sound()), Frames);
        var rows = Rows("line-outputs.csv");
        Assert.True(rows.Count > 2000);
        Assert.All(rows, r => Assert.Equal(Number(r[3]), Of(r[0])[(int)Number(r[1]) * LineNetwork.Pitches + (int)Number(r[2]) - LineNetwork.LowestMidi], 3e-3));

        ReadOnlySpan<float> Of(string output) =>
            output switch { "onset" => onset, "off" => off,
                _ => kinds.AsSpan((output[^1] - '0') * Frames * LineNetwork.Pitches, Frames * LineNetwork.Pitches) };
    }

    [Fact]
    public void OneChannelHasNoPlaces() =>
        Assert.All(Input(Sound().ToMono())[(2 * Frames * LogSpectrum.Bins)..], v => Assert.Equal(0, v));

    [Fact]
    public void SpectraOfTwoChannelsAreThoseOfTheirMean()
    {
        var mean = new float[NoteNetwork.Planes * Frames * LogSpectrum.Bins];
        new NetworkSpectra(Sound().ToMono(), Hertz.FromHertz(442), NoteNetwork.Planes).Fill(0, Frames, mean, TestContext.Current.CancellationToken);
        Assert.All(mean.Zip(Input(Sound())), both => Assert.Equal(both.First, both.Second, 1e-4));
    }

    [Fact]
    public void APitchThatGlidesIsToldInParts()
    {
        // Nine harmonics that glide from A4 up to B4 in a second and stay, swaying by 12 cents. What plays it isn't asked: no instrument does.
        var (samples, phase) = (new float[258 * LogSpectrum.HopSamples], 0.0);
        for (var n = 0; n < samples.Length; n++)
        {
            phase += 2 * Math.PI * 440 * Math.Pow(2, Semitones((double)n / Rate) / 12) / Rate;
            samples[n] = (float)Enumerable.Range(1, 9).Sum(h => 0.1 / h * Math.Sin(h * phase));
        }
        var values = new float[LineNetwork.Planes * 258 * LogSpectrum.Bins];
        new NetworkSpectra(new Signal(LogSpectrum.Rate, samples), Hertz.A440, LineNetwork.Planes).Fill(0, 258, values, TestContext.Current.CancellationToken);
        using var network = LineNetwork.Shipped();
        var off = network.Weigh(values, 258).Off;
        foreach (var frame in new[] { 48, 64, 88, 96, 128, 144, 176, 200, 232 })
        {
            var semitones = Semitones(frame * LogSpectrum.Hop.Value);
            var nearest = (int)Math.Round(semitones);
            Assert.Equal(semitones - nearest, off[frame * LineNetwork.Pitches + 69 + nearest - LineNetwork.LowestMidi], 0.2);
        }

        static double Semitones(double time) => 2 * Math.Clamp(time - 1, 0, 1) + 0.12 * Math.Sin(2 * Math.PI * 5.2 * time);
    }

    private static float[] Input(Signal sound)
    {
        var values = new float[LineNetwork.Planes * Frames * LogSpectrum.Bins];
        new NetworkSpectra(sound, Hertz.FromHertz(442), LineNetwork.Planes).Fill(0, Frames, values, TestContext.Current.CancellationToken);
        return values;
    }

    private static Signal Sound()
    {
        var (left, right) = (new float[Rate], new float[Rate]);
        for (var i = 0; i < Rate; i++)
        {
            var t = (double)i / Rate;
            var struck = Struck.Sum(n => Note(n, t - n.Start));
            var held = Enumerable.Range(1, 4).Sum(h => 0.2 / h * Math.Sin(2 * Math.PI * 523.3 * h * t));
            (left[i], right[i]) = ((float)(struck + 0.3 * held), (float)(struck + 0.7 * held));
        }
        return new(LogSpectrum.Rate, left, right);
    }

    private static double Note((double Start, double Hertz, double Amplitude, double Decay) note, double u) => u < 0 ? 0
        : Enumerable.Range(1, 6).Sum(h => note.Amplitude * Math.Exp(-note.Decay * h * u) * Math.Sin(2 * Math.PI * h * note.Hertz * u) / h);

    private static List<string[]> Rows(string name) =>
        [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Fixtures", "Lines", name)).Skip(1).Select(l => l.Split(','))];

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
