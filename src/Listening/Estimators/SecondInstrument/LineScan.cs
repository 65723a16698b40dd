using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Hears a recording through the line network. Only cells in which a line may sound are kept, so memory grows slowly with length.</summary>
internal sealed class LineScan : ISpectraListener, IDisposable
{
    private const float Least = 0.12f;

    private readonly LineNetwork network = LineNetwork.Shipped();

    private LineCells.Writer heard = new();

    /// <summary>Of all that was heard.</summary>
    public LineCells Cells => heard.Written();

    public int Context => network.Context;

    public int Planes => LineNetwork.Planes;

    public void Begin(int frames) => heard = new();

    public void Hear(SpectraPiece piece)
    {
        var (kinds, onset, off) = network.Weigh(piece.Planes(Planes), piece.Frames, piece.IsLast);
        for (var f = 0; f < piece.Count; f++)
            heard.Add(Frame(piece, f, kinds, onset, off));
    }

    public void Dispose() => network.Dispose();

    private static IEnumerable<LineCell> Frame(SpectraPiece piece, int frame, float[] kinds, float[] onset, float[] off)
    {
        var plane = piece.Frames * LineNetwork.Pitches;
        for (var p = 0; p < LineNetwork.Pitches; p++)
        {
            var at = (piece.Context + frame) * LineNetwork.Pitches + p;
            var shares = new KindShares(kinds[plane + at], kinds[2 * plane + at], kinds[3 * plane + at], kinds[4 * plane + at]);
            if (shares.Sum >= Least || onset[at] >= Least)
                yield return new(p, shares, onset[at], off[at], Level(piece.Row(0, frame), p));
        }
    }

    private static float Level(ReadOnlySpan<float> wide, int pitch)
    {
        var power = 0f;
        foreach (var partial in (ReadOnlySpan<double>)[0, 12, 19.02])
        {
            var bin = NetworkKernels.BinOf(LineNetwork.LowestMidi + pitch + partial);
            if (bin < wide.Length)
                power += MathF.Pow(10, NetworkSpectra.Decibels(wide[bin]) / 10);
        }
        return 10 * MathF.Log10(power + 1e-12f);
    }
}
