using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>How well a guitar's open strings explain what was heard, in figures that a network turns into a likelihood.</summary>
internal sealed class TuningFit
{
    /// <summary>The first few features are logs of chances, which say something only against the best of all candidates.</summary>
    public const int LogChances = 12;

    public static readonly ImmutableArray<string> Names =
    [
        "struck together", "struck together, few open", "struck together in its pitch classes", "sounding together", "sounding together, few open",
        "sounding together in its pitch classes", "each pitch", "cut short by", "chosen", "chosen, full chords", "chosen, ringing",
            "chosen, ringing, full chords",
        "open", "open strings heard", "open strings heard, log", "open string heard least", "floor", "too low", "above all frets", "open notes longer",
        "lowest of a chord: first string open", "second", "third", "keynote on first string", "on second", "on any", "fifth on first string",
        .. PitchProfiles.Names,
        "first string's open pitch", "second", "third", "fourth", "fifth", "sixth",
    ];

    private const double FewOpen = 0.22, ManyOpen = 0.5;

    private readonly TuningEvidence evidence;

    /// <param name="open">MIDI numbers of the strings as the capo stops them, low side first.</param>
    public TuningFit(TuningEvidence evidence, int[] open)
    {
        (this.evidence, Open) = (evidence, open);
        if (evidence.TotalWeight <= 0)
            return;
        OpenHeard = [.. open.Select(p => Share(evidence.Weights[p]))];
        OpenShare = Share(open.Distinct().Sum(p => evidence.Weights[p]));
        TooLow = Share(evidence.Weights.Take(open.Min()).Sum());
        Features = Measure();
    }

    public int[] Open { get; }

    /// <summary>Shares of all notes, 0–1: at each open string's pitch; at any of them; below all of them.</summary>
    public double[] OpenHeard { get; } = [];

    public double OpenShare { get; }

    public double TooLow { get; }

    /// <summary>In the order of <see cref="Names"/>.</summary>
    public double[] Features { get; } = new double[Names.Length];

    private double[] Measure()
    {
        var (many, few, pitches) = (new HandModel(Open, ManyOpen, evidence.Hand), new HandModel(Open, FewOpen, evidence.Hand), new NeckModel(Open));
        var much = Math.Min(8, Math.Sqrt(evidence.TotalWeight));
        var lowest = evidence.Struck.Length > 0 ? evidence.Struck : evidence.Ringing;
        return
        [
            .. Chances(evidence.Struck, many, few), .. Chances(evidence.Ringing, many, few),
            much * Enumerable.Range(0, 128).Where(m => evidence.Weights[m] > 0).Sum(m => Share(evidence.Weights[m]) * pitches.LogChance(m)),
            evidence.Cuts.Sum(c => c.Say * many.LogChanceOfCut(c.First, c.Second)),
            .. Chosen(evidence.Struck), .. Chosen(evidence.Ringing),
            OpenShare,
            OpenHeard.Average(o => Math.Min(1, o / 0.02)),
            OpenHeard.Average(o => Math.Log(o + 0.005)),
            Math.Log(OpenHeard.Min() + 0.003),
            -Math.Clamp((evidence.Lowest ?? Open[0]) - Open.Min(), -3, 7),
            -Math.Min(0.2, TooLow) * 5,
            -Math.Min(0.2, Share(evidence.Weights.Skip(Open.Max() + 16).Sum())) * 5,
            Length(Open.Contains) - Length(m => !Open.Contains(m)),
            Lowest(lowest, 0), Lowest(lowest, 1), Lowest(lowest, 2),
            .. KeyOnOpen(),
            .. evidence.Profiles.Around(Open),
            .. OpenHeard.Select(o => Math.Log(o + 0.005)),
        ];
    }

    /// <summary>Which chords are played has to do with the song; which of their notes sound, with the strings: hence the last.</summary>
    private static double[] Chances(ImmutableArray<HeldSet> sets, HandModel many, HandModel few)
    {
        var likely = sets.Sum(s => s.Say * many.LogChance(s.Pitches));
        return [likely, sets.Sum(s => s.Say * few.LogChance(s.Pitches)), likely - sets.Sum(s => s.Say * many.LogChanceOfClasses(s.Classes))];
    }

    /// <summary>Of all sets of three pitches or more, and of those of five or more.</summary>
    private double[] Chosen(ImmutableArray<HeldSet> sets)
    {
        var (model, all, full) = (new ShapeModel(Open, evidence.Hand), 0.0, 0.0);
        foreach (var set in sets.Where(s => s.Pitches.Length >= 3))
        {
            var said = set.Say * model.LogChance(set.Pitches, set.Classes, set.Strays);
            (all, full) = (all + said, full + (set.Pitches.Length >= 5 ? said : 0));
        }
        return [all, full];
    }

    private double Lowest(ImmutableArray<HeldSet> sets, int stringIndex) =>
        sets.Sum(s => s.Pitches[0] == Open[stringIndex] ? s.Say : 0) / Math.Max(1e-9, sets.Sum(s => s.Say));

    private double[] KeyOnOpen()
    {
        var tonic = evidence.Key.Tonic.PitchClass;
        return [Is(Open[0], tonic), Is(Open[1], tonic), Open.Any(p => p % 12 == tonic) ? 1 : 0, Is(Open[0], tonic + 7)];

        static double Is(int midi, int pitchClass) => (midi - pitchClass + 24) % 12 == 0 ? 1 : 0;
    }

    private double Share(double weight) => weight / evidence.TotalWeight;

    private double Length(Func<int, bool> which)
    {
        var midi = Enumerable.Range(0, 128).Where(m => evidence.Weights[m] > 0 && which(m)).ToArray();
        return midi.Sum(m => evidence.Weights[m] * evidence.LogLengths[m]) / (midi.Sum(m => evidence.Weights[m]) + 1);
    }
}
