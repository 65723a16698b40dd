namespace Harkbook.Listening.Estimators.Notes;

/// <summary>Some frames of a recording as the networks look at them, with frames around them that they look at too.</summary>
/// <param name="Values">Planes × frames × <see cref="LogSpectrum.Bins"/> (<see cref="NetworkSpectra"/>).</param>
/// <param name="Frames">In each plane.</param>
/// <param name="Context">How many of them stand before the first frame that is to be heard; as many stand after the last of a whole piece.</param>
/// <param name="First">The number of that frame in the recording.</param>
/// <param name="Count">How many are to be heard.</param>
/// <param name="IsLast">Whether no other follows.</param>
internal readonly record struct SpectraPiece(float[] Values, int Frames, int Context, int First, int Count, bool IsLast)
{
    /// <summary>The first planes.</summary>
    public Memory<float> Planes(int count) => Values.AsMemory(0, count * Frames * LogSpectrum.Bins);

    /// <summary>A plane's bins of the frame that is so many after the first to be heard.</summary>
    public ReadOnlySpan<float> Row(int plane, int frame) => Values.AsSpan((plane * Frames + Context + frame) * LogSpectrum.Bins, LogSpectrum.Bins);
}
