using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Runs the line network over a recording, a piece at a time. Only cells in which a line may sound are kept, so memory grows slowly with length.</summary>
internal static class LineScan
{
    private const int PieceFrames = 1024;
    private const float Least = 0.12f;

    /// <summary>Each frame's cells, by pitch; frame f is centred on f hops of <see cref="LogSpectrum"/>.</summary>
    public static LineCell[][] Cells(ISound sound, Hertz a4, IProgress<double>? progress, CancellationToken ct)
    {
        using var network = LineNetwork.Shipped();
        var input = new LineNetworkInput(sound.At(LogSpectrum.Rate), a4);
        var cells = new LineCell[input.Frames][];
        var frames = PieceFrames + 2 * network.Context;
        var values = new float[LineNetworkInput.Channels * frames * LogSpectrum.Bins];
        for (var first = 0; first < input.Frames; first += PieceFrames)
        {
            ct.ThrowIfCancellationRequested();
            input.Fill(first - network.Context, frames, values, ct);
            var (kinds, onset, off) = network.Weigh(values, frames);
            for (var f = first; f < Math.Min(input.Frames, first + PieceFrames); f++)
                cells[f] = [.. Frame(f - first + network.Context, frames, kinds, onset, off, values)];
            progress?.Report(Math.Min(1, (first + PieceFrames) / (double)input.Frames));
        }
        return cells;
    }

    private static IEnumerable<LineCell> Frame(int row, int frames, float[] kinds, float[] onset, float[] off, float[] values)
    {
        var plane = frames * LineNetwork.Pitches;
        for (var p = 0; p < LineNetwork.Pitches; p++)
        {
            var at = row * LineNetwork.Pitches + p;
            var shares = new KindShares(kinds[plane + at], kinds[2 * plane + at], kinds[3 * plane + at], kinds[4 * plane + at]);
            if (shares.Sum >= Least || onset[at] >= Least)
                yield return new(p, shares, onset[at], off[at], Level(values.AsSpan(row * LogSpectrum.Bins, LogSpectrum.Bins), p));
        }
    }

    private static float Level(ReadOnlySpan<float> wide, int pitch)
    {
        var power = 0f;
        foreach (var partial in (ReadOnlySpan<double>)[0, 12, 19.02])
        {
            var bin = NetworkKernels.BinOf(LineNetwork.LowestMidi + pitch + partial);
            if (bin < wide.Length)
                power += MathF.Pow(10, NoteNetworkInput.Decibels(wide[bin]) / 10);
        }
        return 10 * MathF.Log10(power + 1e-12f);
    }
}
