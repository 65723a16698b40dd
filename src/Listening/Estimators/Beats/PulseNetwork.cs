using Harkbook.Listening.Evidence;
using Microsoft.ML.OnnxRuntime;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// The trained beat network (models/README.md is its card): a temporal convolutional network with several tasks, after M. Davies and S. Böck,
/// "Temporal convolutional networks for musical audio beat tracking", EUSIPCO 2019, and S. Böck and M. Davies, "Deconstruct, analyse,
/// reconstruct", ISMIR 2020. Recordings pass through it in pieces.
/// </summary>
internal sealed class PulseNetwork : IDisposable
{
    // Multiples of the eight frames that the network's attention takes together.
    private const int Piece = 6000;
    private const int Context = 1504;
    private const int Outputs = 3 + PulseEvidence.Meters + PulseEvidence.Tempi;

    private readonly NetworkSession session;

    public PulseNetwork(byte[] model) => session = NetworkSession.Open(model);

    /// <summary>The network that comes with the program; a new session each time.</summary>
    public static PulseNetwork Shipped() => new(ModelFile.Read("beats.onnx"));

    public PulseEvidence Weigh(IPulseBands bands, CancellationToken cancellation)
    {
        var evidence = new PulseEvidence(bands.Frames);
        var rows = new float[Math.Min(bands.Frames, Piece + 2 * Context) * PulseBands.Count];
        var (from, to) = (0, 0);
        for (var first = 0; first < bands.Frames; first += Piece)
        {
            cancellation.ThrowIfCancellationRequested();
            var (start, held) = (Math.Max(0, first - Context), to);
            Array.Copy(rows, (start - from) * PulseBands.Count, rows, 0, (held - start) * PulseBands.Count);
            (from, to) = (start, Math.Min(bands.Frames, first + Piece + Context));
            bands.Fill(held, to - held, rows.AsMemory((held - from) * PulseBands.Count), cancellation);
            using var tensor = OrtValue.CreateTensorValueFromMemory(OrtMemoryInfo.DefaultInstance, rows.AsMemory(0, (to - from) * PulseBands.Count),
                [1, to - from, PulseBands.Count]);
            using var results = session.Run("bands", tensor, ["pulse"], isLast: first + Piece >= bands.Frames);
            var pulse = results[0].GetTensorDataAsSpan<float>();
            for (var f = first; f < Math.Min(bands.Frames, first + Piece); f++)
                Fill(evidence, f, pulse.Slice((f - from) * Outputs, Outputs));
        }
        return evidence;
    }

    public void Dispose() => session.Dispose();

    private static void Fill(PulseEvidence evidence, int frame, ReadOnlySpan<float> row)
    {
        (evidence.Beat[frame], evidence.Downbeat[frame], evidence.Change[frame]) = (row[0], row[1], row[2]);
        for (var m = 0; m < PulseEvidence.Meters; m++)
            evidence.Meter[frame, m] = row[3 + m];
        for (var t = 0; t < PulseEvidence.Tempi; t++)
            evidence.Tempo[frame, t] = row[3 + PulseEvidence.Meters + t];
    }
}
