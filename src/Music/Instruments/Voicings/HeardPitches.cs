namespace Harkbook.Music.Instruments.Voicings;

/// <summary>Pitches that were heard, ready for weighing thousands of shapes against them.</summary>
internal sealed class HeardPitches
{
    private static readonly int[] Overtones = [12, 19, 24];

    private readonly double[] strength = new double[128];
    private readonly double[] strongestOfName = new double[12];
    private readonly ShapeFitOptions options;

    public HeardPitches(IReadOnlyDictionary<int, double> sounding, ShapeFitOptions options)
    {
        this.options = options;
        foreach (var (midi, value) in sounding)
            Take(midi, value);
        All = [.. Enumerable.Range(0, 128).Where(IsHeard)];
        Total = All.Sum(midi => strength[midi]);
    }

    /// <summary>MIDI numbers, rising.</summary>
    public IReadOnlyList<int> All { get; }

    public double Total { get; }

    public bool IsHeard(int midi) => midi is >= 0 and < 128 && strength[midi] > 0;

    public bool Admits(int midi) => IsHeard(midi) || strongestOfName[midi % 12] >= options.UnheardOctaveFrom;

    /// <summary>Heard strength that some pitches explain, as a share, less the cost of those unheard; null when none is explained.</summary>
    public double? Match(ReadOnlySpan<int> midi)
    {
        foreach (var must in options.MustSound)
        {
            if (!midi.Contains(must))
                return null;
        }
        var (matched, extra) = (0.0, 0.0);
        for (var i = 0; i < midi.Length; i++)
        {
            if (midi[..i].Contains(midi[i]))
                continue;
            if (IsHeard(midi[i]))
                matched += strength[midi[i]];
            else
                extra += IsMasked(midi, midi[i]) ? options.MaskedCost : options.UnheardCost;
        }
        return matched > 0 ? matched / Total - extra : null;
    }

    private void Take(int midi, double value)
    {
        if (midi is < 0 or > 127 || value is not (>= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(value), $"{midi}: {value}", "MIDI numbers run from 0 to 127 and strengths from 0 to 1.");
        if (value <= 0 || value < options.WeakestHeard)
            return;
        strength[midi] = value;
        strongestOfName[midi % 12] = Math.Max(strongestOfName[midi % 12], value);
    }

    private bool IsMasked(ReadOnlySpan<int> midi, int pitch)
    {
        foreach (var overtone in Overtones)
        {
            if (midi.Contains(pitch - overtone) && IsHeard(pitch - overtone))
                return true;
        }
        return false;
    }
}
