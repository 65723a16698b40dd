using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Form;

/// <summary>
/// Divides a recording into few sections of usual lengths, borders where harmony, colour, singing, strokes or picking change and where what comes back
/// begins and ends (<see cref="FormDivision"/>), and where a singer first comes in (<see cref="SungEntry"/>); alike sections share a letter.
/// </summary>
public sealed class FormEstimator
{
    private readonly FormModel model;

    public FormEstimator() : this(FormModel.Shipped)
    {
    }

    internal FormEstimator(FormModel model) => this.model = model;

    /// <param name="mono">One channel, at any rate.</param>
    /// <param name="a4">The recording's own reference pitch.</param>
    /// <param name="beats">Felt beats, rising; none gives no section.</param>
    public ImmutableArray<HeardSection> Estimate(ISound mono, Hertz a4, ImmutableArray<HeardBeat> beats, CancellationToken cancellation = default) =>
        beats.IsDefaultOrEmpty ? [] : Read(ColourScan.Of(mono, a4, cancellation), beats, [], HeardLines.NotLookedFor, []);

    /// <param name="borders">Where sections start for sure.</param>
    internal ImmutableArray<HeardSection> Read(SoundColour colour, ImmutableArray<HeardBeat> beats, ImmutableArray<HeardNote> notes, HeardLines lines,
        ImmutableArray<Seconds> borders) =>
        beats.IsDefaultOrEmpty || colour.Frames == 0 ? [] : Read(BarSound.Of(colour, beats, notes, lines), borders);

    internal ImmutableArray<HeardSection> Read(BarSound sound, ImmutableArray<Seconds> borders)
    {
        var alike = BarLikeness.Of(sound, model);
        var claimed = borders.Select(sound.BarAt).Where(b => b < alike.Bars).Distinct().ToList();
        var division = new FormDivision(alike, model);
        var sure = claimed.ToDictionary(b => b, _ => 1.0);
        if (sound.Entry is { } entry && claimed.All(b => b == 0 || Math.Abs(b - entry.Bar) >= FormDivision.Shortest))
            sure[entry.Bar] = entry.Confidence;
        return Label(sound, alike, division, division.Starts(sure.Keys), sure);
    }

    /// <param name="sure">How sure it is that a section starts at a bar, where more than the division tells.</param>
    private ImmutableArray<HeardSection> Label(
        BarSound sound, BarLikeness alike, FormDivision division, List<int> starts, Dictionary<int, double> sure)
    {
        var earlier = new List<(int Start, int End, int Label)>();
        var sections = ImmutableArray.CreateBuilder<HeardSection>();
        for (var s = 0; s < starts.Count; s++)
        {
            var (start, end) = (starts[s], s + 1 < starts.Count ? starts[s + 1] : alike.Bars);
            var label = LabelOf(alike, earlier, start, end);
            earlier.Add((start, end, label));
            var heard = starts.Count == 1 ? 0.5 : Math.Clamp(0.3 + 2 * division.Change(start == 0 ? starts[1] : start), 0, 0.95);
            var confidence = new[] { heard, sure.GetValueOrDefault(start), start == 0 ? sure.GetValueOrDefault(end) : 0 }.Max();
            sections.Add(new(Seconds.FromSeconds(sound.Starts[start]), Seconds.FromSeconds(sound.Starts[end]), Letters(label), confidence));
        }
        return sections.ToImmutable();
    }

    /// <summary>The label of the earlier section that this one is most alike; a new one where it is like none.</summary>
    private int LabelOf(BarLikeness alike, List<(int Start, int End, int Label)> earlier, int start, int end)
    {
        var (likeness, label) = earlier.Where(e => 2 * Math.Min(e.End - e.Start, end - start) >= Math.Max(e.End - e.Start, end - start))
            .Select(e => (Likeness: alike.OfStretches(e.Start, e.End, start, end), e.Label)).OrderByDescending(e => e.Likeness).FirstOrDefault();
        return likeness >= model.Alike ? label : earlier.Select(e => e.Label + 1).DefaultIfEmpty(0).Max();
    }

    /// <summary>A to Z, then AA, AB …</summary>
    private static string Letters(int index) =>
        index < 26 ? ((char)('A' + index)).ToString() : Letters(index / 26 - 1) + Letters(index % 26);
}
