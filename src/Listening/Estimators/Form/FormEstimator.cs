using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Form;

/// <summary>
/// Divides a recording into sections on bars. Boundaries are where the likeness of bars changes (checkerboard novelty, Foote 2000)
/// and where a stretch that repeats begins or ends (the repeats of J. Serrà and others, AAAI 2012); alike sections share a letter.
/// </summary>
public sealed class FormEstimator(FormOptions? options = null)
{
    private readonly FormOptions options = Checked(options ?? new());

    /// <param name="mono">One channel, at any rate.</param>
    /// <param name="a4">The recording's own reference pitch.</param>
    /// <param name="beats">Felt beats, rising; none gives no section.</param>
    public ImmutableArray<HeardSection> Estimate(ISound mono, Hertz a4, ImmutableArray<HeardBeat> beats, CancellationToken cancellation = default) =>
        beats.IsDefaultOrEmpty ? [] : Read(ColourScan.Of(mono, a4, cancellation), beats, []);

    /// <param name="borders">Where sections start for sure: there and nowhere nearer to there than the shortest section.</param>
    internal ImmutableArray<HeardSection> Read(SoundColour colour, ImmutableArray<HeardBeat> beats, ImmutableArray<Seconds> borders)
    {
        if (beats.IsDefaultOrEmpty || colour.Frames == 0)
            return [];
        var sound = BarSound.Of(colour, beats);
        var alike = BarLikeness.Of(sound);
        var novelty = Boundaries.Novelty(alike, options.FewestBars);
        var starts = Boundaries.WithRepeats(Boundaries.Pick(novelty, alike, options.FewestBars), novelty, alike, options.FewestBars);
        var claimed = borders.Select(sound.BarAt).Where(b => b < alike.Bars).Distinct().ToList();
        starts.RemoveAll(s => s > 0 && !claimed.Contains(s) && claimed.Any(c => Math.Abs(c - s) < options.FewestBars));
        return Label(sound, alike, novelty, [.. starts.Union(claimed).Order()], claimed);
    }

    private ImmutableArray<HeardSection> Label(BarSound sound, BarLikeness alike, double[] novelty, List<int> starts, List<int> claimed)
    {
        var first = new List<(int Start, int End)>();
        var sections = ImmutableArray.CreateBuilder<HeardSection>();
        for (var s = 0; s < starts.Count; s++)
        {
            var (start, end) = (starts[s], s + 1 < starts.Count ? starts[s + 1] : alike.Bars);
            var label = first.FindIndex(f => IsRepeat(alike, f.Start, f.End, start, end));
            if (label < 0)
            {
                label = first.Count;
                first.Add((start, end));
            }
            var confidence = claimed.Contains(start) ? 1 : starts.Count == 1 ? 0.5 : Math.Clamp(0.3 + 2 * novelty[start == 0 ? starts[1] : start], 0, 0.95);
            sections.Add(new(Seconds.FromSeconds(sound.Starts[start]), Seconds.FromSeconds(sound.Starts[end]), Letters(label), confidence));
        }
        return sections.ToImmutable();
    }

    private bool IsRepeat(BarLikeness alike, int a, int aEnd, int b, int bEnd) =>
        Math.Min(aEnd - a, bEnd - b) >= 0.5 * Math.Max(aEnd - a, bEnd - b) && alike.OfStretches(a, aEnd, b, bEnd) >= options.Alike;

    /// <summary>A to Z, then AA, AB …</summary>
    private static string Letters(int index) =>
        index < 26 ? ((char)('A' + index)).ToString() : Letters(index / 26 - 1) + Letters(index % 26);

    private static FormOptions Checked(FormOptions options)
    {
        options.Require();
        return options;
    }
}
