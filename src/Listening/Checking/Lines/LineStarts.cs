using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Checking.Lines;

/// <summary>What the cells of a second instrument say of a time, one kind at a time.</summary>
/// <param name="kind">A place among <see cref="LineNetwork.Kinds"/>.</param>
internal sealed class LineStarts(LineCells cells, double hop, int kind)
{
    public const int Reed = 0, Voice = 1;

    private const double Least = 0.01;

    /// <summary>How surely the kind sounds a pitch between two times, on the mean, as log-odds.</summary>
    public double Sounds(int midi, double from, double to)
    {
        var (first, last, sum) = (Frame(from), Frame(to), 0.0);
        for (var f = first; f <= last && cells.Frames > 0; f++)
            sum += cells.Find(f, midi - LineNetwork.LowestMidi)?.Kinds[kind] ?? 0;
        return LogOdds.Of(sum / (last - first + 1), Least);
    }

    /// <summary>How surely a note of the kind starts at a pitch between two times, as log-odds.</summary>
    public double Starts(int midi, double from, double to)
    {
        var most = 0f;
        for (var f = Frame(from); f <= Frame(to) && cells.Frames > 0; f++)
            most = Math.Max(most, cells.Find(f, midi - LineNetwork.LowestMidi) is { } cell ? Start(cell) : 0);
        return LogOdds.Of(most, Least);
    }

    /// <summary>In each frame how surely a note of the kind starts, at whatever pitch.</summary>
    public float[] Curve()
    {
        var curve = new float[cells.Frames];
        for (var f = 0; f < curve.Length; f++)
        {
            foreach (var cell in cells[f])
                curve[f] = Math.Max(curve[f], Start(cell));
        }
        return curve;
    }

    public int Frame(double time) => Math.Clamp((int)Math.Round(time / hop), 0, Math.Max(0, cells.Frames - 1));

    public double TimeOf(int frame) => frame * hop;

    /// <summary>The kinds share a cell's start as they share its sound, the kind asked about getting the better of a doubt.</summary>
    private float Start(LineCell cell) => cell.Onset * MathF.Sqrt(Math.Min(1, cell.Kinds[kind] / (cell.Kinds.Sum + 0.05f)));
}
