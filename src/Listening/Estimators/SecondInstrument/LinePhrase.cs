using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Stretches that follow each other without a rest, or sound together, as one instrument plays them.</summary>
internal sealed class LinePhrase
{
    private const float LongShare = 0.6f;

    private readonly List<LineStretch> stretches = [];

    /// <summary>By first frame.</summary>
    public IReadOnlyList<LineStretch> Stretches => stretches;

    /// <summary>The frame after its last.</summary>
    public int End { get; private set; }

    /// <summary>The network's word over all of it: what it said of each frame, summed.</summary>
    public KindShares Word { get; private set; }

    /// <summary>Frames of all stretches, those that sound together counted each.</summary>
    public int Frames { get; private set; }

    /// <summary>The mean semitone.</summary>
    public double Pitch => stretches.Sum(s => (double)s.Midi * s.Length) / Frames;

    public void Add(LineStretch stretch)
    {
        stretches.Add(stretch);
        End = Math.Max(End, stretch.End);
        Word += stretch.Kinds * stretch.Length;
        Frames += stretch.Length;
    }

    /// <summary>The share of it that sounds together with another of its own notes.</summary>
    public double Together()
    {
        var frames = stretches.Where((a, i) => stretches.Where((_, j) => j != i).Any(b => a.Overlap(b) > LongShare * Math.Min(a.Length, b.Length)))
            .Sum(s => s.Length);
        return (double)frames / Frames;
    }

    /// <summary>The share of it that lies beyond these semitones.</summary>
    public double Beyond(int lowest, int highest) => (double)stretches.Where(s => s.Midi < lowest || s.Midi > highest).Sum(s => s.Length) / Frames;
}
