using System.Globalization;
using Harkbook.Listening.Estimators.Notes;
using Microsoft.ML.OnnxRuntime;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// The trained line network (models/README.md is its card): from spectra to the chance that a struck string, a free reed, a voice,
/// a blown pipe or a bowed string sounds each pitch from MIDI <see cref="LowestMidi"/> up in each frame, that a line's note starts,
/// and how far the pitch lies from its semitone.
/// </summary>
/// <remarks>The family: R. M. Bittner et al., "Deep salience representations for f0 estimation in polyphonic music", ISMIR 2017.</remarks>
internal sealed class LineNetwork : IDisposable
{
    public const int LowestMidi = NoteNetwork.LowestMidi;
    public const int Pitches = NoteNetwork.Pitches;

    /// <summary>Those of <see cref="NetworkSpectra"/> that it looks at.</summary>
    public const int Planes = 3;

    private static readonly string[] Outputs = ["kinds", "onset", "off"];

    private readonly NetworkSession session;
    private readonly OutputBuffers buffers = new(Outputs.Length);

    public LineNetwork(byte[] model)
    {
        session = NetworkSession.Open(model);
        Context = int.Parse(session.Facts["context"], CultureInfo.InvariantCulture);
    }

    /// <summary>The kinds of a line, in the order of the network's outputs after the struck strings.</summary>
    public static readonly LineKind[] Kinds =
        [LineKind.Harmonica, LineKind.Voice, LineKind.Whistle, LineKind.Bowed];

    /// <summary>How many frames on either side the network looks at.</summary>
    public int Context { get; }

    /// <summary>The network that comes with the program; a new session each time.</summary>
    public static LineNetwork Shipped() => new(ModelFile.Read("lines.onnx"));

    /// <param name="input">3 × frames × bins (<see cref="NetworkSpectra"/>).</param>
    /// <param name="frames">Even.</param>
    /// <param name="isLast">Whether no piece follows, so that the store gives back what it has kept.</param>
    /// <returns>Chances of the kinds (struck strings first), 5 × frames × pitches; of an onset, and semitones off, frames × pitches; the arrays serve
    /// the next piece of this size again.</returns>
    public (float[] Kinds, float[] Onset, float[] Off) Weigh(Memory<float> input, int frames, bool isLast = false)
    {
        using var tensor = OrtValue.CreateTensorValueFromMemory(OrtMemoryInfo.DefaultInstance, input, [1, Planes, frames, LogSpectrum.Bins]);
        using var results = session.Run("features", tensor, Outputs, isLast);
        return (buffers.Take(0, results[0]), buffers.Take(1, results[1]), buffers.Take(2, results[2]));
    }

    public void Dispose() => session.Dispose();
}
