using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>Goes through a recording once, a piece at a time, for all who hear it through networks: what they look at is made once, and memory stays
/// flat.</summary>
internal static class SpectraScan
{
    private const int PieceFrames = 512;

    /// <param name="sound">Any rate and number of channels.</param>
    /// <param name="a4">The recording's own reference pitch.</param>
    /// <param name="progress">From 0 to 1.</param>
    public static void Run(ISound sound, Hertz a4, IReadOnlyList<ISpectraListener> listeners, IProgress<double>? progress, CancellationToken ct)
    {
        var (context, planes) = (listeners.Max(l => l.Context), listeners.Max(l => l.Planes));
        var spectra = new NetworkSpectra(sound.At(LogSpectrum.Rate), a4, planes);
        var frames = PieceFrames + 2 * context;
        var values = new float[planes * frames * LogSpectrum.Bins];
        foreach (var listener in listeners)
            listener.Begin(spectra.Frames);
        for (var first = 0; first < spectra.Frames; first += PieceFrames)
        {
            ct.ThrowIfCancellationRequested();
            spectra.Fill(first - context, frames, values, ct);
            var left = spectra.Frames - first;
            var piece = new SpectraPiece(values, frames, context, first, Math.Min(PieceFrames, left), left <= PieceFrames);
            foreach (var listener in listeners)
                listener.Hear(piece);
            progress?.Report(Math.Min(1, (first + PieceFrames) / (double)spectra.Frames));
        }
    }
}
