using Microsoft.ML.OnnxRuntime;

namespace Harkbook.Listening.Estimators;

/// <summary>Opens the trained networks.</summary>
internal static class NetworkSession
{
    /// <summary>
    /// All cores work on one piece and sleep between pieces. What a piece needed is given back after it: the runtime's own store of
    /// memory grows to more than twice that and stays.
    /// </summary>
    public static InferenceSession Open(byte[] model)
    {
        using var options = new SessionOptions { IntraOpNumThreads = Environment.ProcessorCount, EnableCpuMemArena = false, EnableMemoryPattern = false };
        options.AddSessionConfigEntry("session.intra_op.allow_spinning", "0");
        return new(model, options);
    }
}
