using System.Globalization;
using Microsoft.ML.OnnxRuntime;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// The trained note network (models/README.md is its card): from spectra to the chances that each pitch from MIDI
/// <see cref="LowestMidi"/> up starts, sounds and ends in each frame.
/// </summary>
internal sealed class NoteNetwork : IDisposable
{
    public const int LowestMidi = 36;
    public const int Pitches = 61;

    /// <summary>Those of <see cref="NetworkSpectra"/> that it looks at.</summary>
    public const int Planes = 2;

    private static readonly string[] Outputs = ["onset", "frame", "offset"];

    private readonly NetworkSession session;
    private readonly OutputBuffers buffers = new(Outputs.Length);

    public NoteNetwork(byte[] model)
    {
        session = NetworkSession.Open(model);
        Context = int.Parse(Entry("context"), CultureInfo.InvariantCulture);
        OnsetThreshold = double.Parse(Entry("threshold"), CultureInfo.InvariantCulture);
        SoundingThreshold = double.Parse(Entry("hold"), CultureInfo.InvariantCulture);
    }

    /// <summary>The network that comes with the program; a new session each time.</summary>
    public static NoteNetwork Shipped() => new(ModelFile.Read("notes.onnx"));

    /// <summary>How many frames on either side the network looks at.</summary>
    public int Context { get; }

    /// <summary>Chosen on made sound when the weights were trained.</summary>
    public double OnsetThreshold { get; }

    /// <summary>As <see cref="OnsetThreshold"/>.</summary>
    public double SoundingThreshold { get; }

    /// <param name="input">2 × frames × bins (<see cref="NetworkSpectra"/>).</param>
    /// <param name="isLast">Whether no piece follows, so that the store gives back what it has kept.</param>
    /// <returns>Onset, sounding and offset, each frames × pitches; the arrays serve the next piece of this size again.</returns>
    public (float[] Onset, float[] Sounding, float[] Offset) Weigh(Memory<float> input, int frames, bool isLast = false)
    {
        using var tensor = OrtValue.CreateTensorValueFromMemory(OrtMemoryInfo.DefaultInstance, input, [1, Planes, frames, LogSpectrum.Bins]);
        using var results = session.Run("features", tensor, Outputs, isLast);
        return (buffers.Take(0, results[0]), buffers.Take(1, results[1]), buffers.Take(2, results[2]));
    }

    public void Dispose() => session.Dispose();

    private string Entry(string name) =>
        session.Facts.TryGetValue(name, out var value) ? value
            : throw new InvalidDataException($"The note network carries no \"{name}\"; it was exported by another recipe than training/README.md tells.");
}
