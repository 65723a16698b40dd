using System.Globalization;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Notes;

/// <summary>
/// The program must give the network just what it was trained on. The fixtures were written by the training program
/// (training/notes/parity.py), which shares no code with this one, from a second of sound that a formula tells.
/// </summary>
public class NoteNetworkTests
{
    private const int Rate = 22_050;

    private static readonly (double Start, double Hertz, double Amplitude, double Decay)[] Struck =
        [(0.10, 110.5, 0.5, 2.0), (0.30, 196.9, 0.3, 3.0), (0.55, 331.1, 0.2, 4.0)];

    [Fact]
    public void TheFeaturesAreThoseOfTheTraining()
    {
        var input = new NetworkSpectra(Sounding(Sound()), Hertz.FromHertz(442), NoteNetwork.Planes);
        var values = new float[2 * input.Frames * LogSpectrum.Bins];
        input.Fill(0, input.Frames, values, TestContext.Current.CancellationToken);

        var rows = Rows("note-features.csv");

        Assert.True(rows.Count > 4000);
        Assert.All(rows, r =>
            Assert.Equal(Number(r[3]), values[((int)Number(r[0]) * input.Frames + (int)Number(r[1])) * LogSpectrum.Bins + (int)Number(r[2])], 1e-4));
    }

    [Fact]
    public void TheOutputsAreThoseOfTheTraining()
    {
        using var network = NoteNetwork.Shipped();
        var input = new NetworkSpectra(Sounding(Sound()), Hertz.FromHertz(442), NoteNetwork.Planes);
        var values = new float[2 * input.Frames * LogSpectrum.Bins];
        input.Fill(0, input.Frames, values, TestContext.Current.CancellationToken);
        var (onset, sounding, offset) = network.Weigh(values, input.Frames);

        var rows = Rows("note-outputs.csv");

        Assert.True(rows.Count > 1000);
        Assert.All(rows, r => Assert.Equal(
            Number(r[3]),
            (r[0] switch { "onset" => onset, "frame" => sounding, _ => offset })[(int)Number(r[1]) * NoteNetwork.Pitches
                + (int)Number(r[2]) - NoteNetwork.LowestMidi],
            1e-3));
    }

    [Fact]
    public void PiecesJoinWithoutASeam()
    {
        // The same second of sound stands before and after the border between the pieces that long recordings are heard in.
        using var network = NoteNetwork.Shipped();
        var input = new NetworkSpectra(Sounding([.. Enumerable.Repeat(Sound(), 4).SelectMany(s => s)]), Hertz.A440, NoteNetwork.Planes);
        var whole = new float[2 * input.Frames * LogSpectrum.Bins];
        input.Fill(0, input.Frames, whole, TestContext.Current.CancellationToken);
        var (first, count) = (160, 8 + 2 * network.Context);
        var part = new float[2 * count * LogSpectrum.Bins];
        input.Fill(first - network.Context, count, part, TestContext.Current.CancellationToken);

        var (inWhole, inPart) = (network.Weigh(whole, input.Frames).Onset, network.Weigh(part, count).Onset);

        for (var i = 0; i < 8 * NoteNetwork.Pitches; i++)
            Assert.Equal(inWhole[first * NoteNetwork.Pitches + i], inPart[network.Context * NoteNetwork.Pitches + i], 2e-3);
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(40, 30)]
    [InlineData(85, 2)]
    public void AnyFramesAreThoseOfTheWhole(int first, int count)
    {
        const int Bins = LogSpectrum.Bins;
        var input = new NetworkSpectra(Sounding(Sound()), Hertz.A440, NoteNetwork.Planes);
        var (whole, part) = (new float[2 * input.Frames * Bins], new float[2 * count * Bins]);
        input.Fill(0, input.Frames, whole, TestContext.Current.CancellationToken);
        input.Fill(first, count, part, TestContext.Current.CancellationToken);
        for (var spectrum = 0; spectrum < 2; spectrum++)
            Assert.Equal(whole.AsSpan((spectrum * input.Frames + first) * Bins, count * Bins), part.AsSpan(spectrum * count * Bins, count * Bins));
    }

    private static Signal Sounding(float[] samples) => new(LogSpectrum.Rate, samples);

    private static float[] Sound() => [.. Enumerable.Range(0, Rate).Select(i => (float)Struck.Sum(n => Note(n, (double)i / Rate - n.Start)))];

    private static double Note((double Start, double Hertz, double Amplitude, double Decay) note, double u) => u < 0 ? 0
        : Enumerable.Range(1, 6).Sum(h => note.Amplitude * Math.Exp(-note.Decay * h * u) * Math.Sin(2 * Math.PI * h * note.Hertz * u) / h);

    private static List<string[]> Rows(string name) =>
        [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Fixtures", "Notes", name)).Skip(1).Select(l => l.Split(','))];

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
