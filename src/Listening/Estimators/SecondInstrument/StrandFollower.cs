namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>
/// Joins the tones of frames that follow each other into strands, and cuts these where a note starts anew or the pitch steps
/// (pitch contours as in J. Salamon and E. Gómez, "Melody extraction from polyphonic music signals using pitch contour
/// characteristics", IEEE TASLP 20(6), 2012).
/// </summary>
internal sealed class StrandFollower
{
    private const float Reach = 0.7f;
    private const int LongestGap = 5, Shortest = 6;

    private readonly List<Open> open = [];
    private readonly List<Strand> done = [];
    private int frame;

    public void Follow(ReadOnlySpan<Tone> tones)
    {
        Span<bool> taken = stackalloc bool[tones.Length];
        taken.Clear();
        foreach (var strand in open)
        {
            var (best, bestOff) = (-1, Reach);
            for (var i = 0; i < tones.Length; i++)
            {
                var off = Math.Abs(tones[i].Midi - strand.Tones[^1].Midi);
                if (!taken[i] && off < bestOff)
                    (best, bestOff) = (i, off);
            }
            if (best >= 0)
                taken[best] = true;
            strand.Add(best < 0 ? null : tones[best]);
        }
        for (var i = open.Count - 1; i >= 0; i--)
        {
            if (open[i].Gap > LongestGap)
                Close(i);
        }
        for (var i = 0; i < tones.Length; i++)
        {
            if (!taken[i])
                open.Add(new(frame, tones[i]));
        }
        frame++;
    }

    /// <summary>Every strand of at least six frames, by start.</summary>
    public List<Strand> Finish()
    {
        for (var i = open.Count - 1; i >= 0; i--)
            Close(i);
        return [.. done.OrderBy(s => s.First).ThenBy(s => s.MedianMidi)];
    }

    private void Close(int index)
    {
        var strand = open[index];
        strand.Tones.RemoveRange(strand.Tones.Count - strand.Gap, strand.Gap);
        if (strand.Tones.Count >= Shortest)
            done.AddRange(StrandCuts.Cut(new(strand.First, strand.Tones)).Where(s => s.Length >= Shortest));
        open.RemoveAt(index);
    }

    private sealed class Open(int first, Tone tone)
    {
        public int First { get; } = first;

        public List<Tone> Tones { get; } = [tone];

        public int Gap { get; private set; }

        public void Add(Tone? next)
        {
            Gap = next is null ? Gap + 1 : 0;
            Tones.Add(next ?? Tones[^1]);
        }
    }
}
