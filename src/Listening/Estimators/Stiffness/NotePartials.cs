using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Stiffness;

/// <summary>
/// Looks for the partials of notes in a recording, in two stretches from just after the attack: one as long as the note allows, which parts what lies
/// close together, and a short one, in which high partials haven't faded yet. One instance serves one thread.
/// </summary>
/// <param name="a4">The recording's own reference pitch.</param>
internal sealed class NotePartials(ISound mono, Hertz a4)
{
    private const double Attack = 0.03, Highest = 7500, FarthestFlat = -40, FarthestSharp = 40, StiffestB = 6.4e-4;
    private const int MostPartials = 30;

    /// <summary>Notes struck together share their stretches: starts are taken to a hundredth of a second.</summary>
    private const double StartStep = 0.01;

    private static readonly double[] Windows = [0.07, 0.1, 0.14, 0.2, 0.3];

    /// <summary>The longest of <see cref="Windows"/> for each stretch.</summary>
    private static readonly int[] Longest = [4, 2];

    private readonly SpectrumPeaks[] spectra = [.. Windows.Select(w => new SpectrumPeaks(mono.Rate, mono.Rate.SamplesIn(Seconds.FromSeconds(w)), Highest))];
    private readonly List<SpectrumPeak>[] found = [[], []];
    private readonly (int Start, int Window)[] at = [(-1, -1), (-1, -1)];

    /// <summary>How long after its onset a note is listened to, at most.</summary>
    public static double LongestLook => Attack + Windows[^1];

    /// <summary>By stretch and partial: the peaks where it may lie. Empty where the note is too short.</summary>
    /// <param name="others">What else sounds meanwhile.</param>
    public List<PartialPeaks> Of(HeardNote note, IReadOnlyList<HeardNote> others)
    {
        var partials = new List<PartialPeaks>();
        var start = StartStep * Math.Round((note.Onset.Value + Attack) / StartStep);
        var longest = Array.FindLastIndex(Windows, w => w <= note.End.Value - start + 2 * StartStep);
        double[] elsewhere = [.. others.Where(o => o.Midi != note.Midi).Select(o => Frequency(o.Midi)).Distinct()];
        for (var stretch = 0; stretch < Longest.Length && longest >= (stretch == 0 ? 0 : Longest[stretch] + 1); stretch++)
            Add(partials, stretch, start, Math.Min(longest, Longest[stretch]), Frequency(note.Midi), elsewhere);
        return partials;
    }

    private void Add(List<PartialPeaks> partials, int stretch, double start, int window, double first, double[] others)
    {
        var peaks = Peaks(stretch, start, window);
        for (var n = 1; n <= MostPartials && n * first < Highest; n++)
            partials.Add(new(n, (float)(1200 / Math.Log(2) * spectra[window].Resolution / (n * first)), Near(n, first, peaks, others)));
    }

    private double Frequency(int midi) => a4.Value * Math.Pow(2, (midi - 69) / 12.0);

    private List<SpectrumPeak> Peaks(int stretch, double from, int window)
    {
        var start = mono.Rate.SamplesIn(Seconds.FromSeconds(from));
        if (at[stretch] == (start, window))
            return found[stretch];
        at[stretch] = (start, window);
        var sound = new float[mono.Rate.SamplesIn(Seconds.FromSeconds(Windows[window]))];
        mono.Read(0, start, sound);
        spectra[window].Find(sound, found[stretch]);
        return found[stretch];
    }

    private static List<CandidatePeak> Near(int n, double first, List<SpectrumPeak> peaks, double[] others)
    {
        var candidates = new List<CandidatePeak>();
        var highest = n * first * Math.Sqrt(1 + StiffestB * n * n) * Math.Pow(2, FarthestSharp / 1200);
        for (var i = FirstAbove(peaks, n * first * Math.Pow(2, FarthestFlat / 1200)); i < peaks.Count && peaks[i].Hertz < highest; i++)
            candidates.Add(new((float)(1200 * Math.Log2(peaks[i].Hertz / (n * first))), peaks[i].Decibels, OthersAt(peaks[i].Hertz, others)));
        return candidates;
    }

    private static int FirstAbove(List<SpectrumPeak> peaks, double hertz)
    {
        var (low, high) = (0, peaks.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = peaks[middle].Hertz < hertz ? (middle + 1, high) : (low, middle);
        }
        return low;
    }

    /// <summary>How many partials of other notes may lie at a frequency; high ones count less.</summary>
    private static float OthersAt(double hertz, double[] others)
    {
        const double Flat = -20, Sharp = 20, UsualB = 2.5e-4, Fading = 12;
        var sum = 0.0;
        foreach (var other in others)
        {
            for (var m = (int)Math.Ceiling(hertz / other * 1.01); m >= 1; m--)
            {
                var cents = 1200 * Math.Log2(hertz / (m * other));
                if (cents > 600 * Math.Log2(1 + UsualB * m * m) + Sharp)
                    break;
                if (cents > Flat)
                    sum += Math.Exp(-m / Fading);
            }
        }
        return (float)sum;
    }
}
