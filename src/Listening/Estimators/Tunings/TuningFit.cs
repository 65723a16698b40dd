using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Music.Instruments;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>How well a guitar's open strings explain what was heard, in figures that weights turn into a likelihood.</summary>
internal sealed class TuningFit
{
    private static readonly FretWeights Hand = FretWeights.Usual;

    private readonly TuningEvidence evidence;
    private readonly Neck neck;
    private readonly FretPath path;
    private readonly int[] heard;

    public TuningFit(TuningEvidence evidence, Tuning tuning, Capo capo)
    {
        this.evidence = evidence;
        neck = new(tuning, capo);
        path = new FretSearch(neck, Hand, statesPerPosition: 1, gripsPerPosition: 2).Find(evidence.Notes, evidence.Groups);
        heard = [.. evidence.Groups.SelectMany(g => g.Notes)];
        var weight = heard.Sum(Weight);
        if (weight <= 0)
            return;
        OpenShare = Share(i => path.Frets[i] == 0);
        Unplaced = Share(i => path.Strings[i] < 0);
        TooLow = Share(i => evidence.Notes[i].Midi < neck.Open.Min());
        Features = Measure();
    }

    /// <summary>Shares of the notes, 0–1.</summary>
    public double OpenShare { get; }

    public double Unplaced { get; }

    public double TooLow { get; }

    public int LowestOpen => neck.Open.Min();

    /// <summary>In the order of <see cref="TuningWeights.Names"/>.</summary>
    public double[] Features { get; } = new double[TuningWeights.Count];

    private double[] Measure()
    {
        var much = Math.Min(heard.Length, TuningWeights.MostNotes) / 20.0;
        var pitches = new NeckModel(neck.Open);
        var hand = new ChordReach(neck.Open);
        var reach = evidence.Together.Select(t => (t.Say, Found: hand.Of(t.Pitches))).ToArray();
        var openHeard = Enumerable.Range(0, neck.Strings).Select(s => Share(i => path.Strings[i] == s && path.Frets[i] == 0)).ToArray();
        var used = Enumerable.Range(0, neck.Strings).Select(s => Share(i => path.Strings[i] == s)).ToArray();
        return
        [
            -path.Cost / heard.Length * much,
            -Unplaced * much,
            OpenShare * much,
            openHeard.Average(o => Math.Min(1, o / 0.02)),
            openHeard.Average(o => Math.Log(o + 0.005)),
            -Mean(i => Math.Max(0, path.Frets[i])) * much,
            Mean(i => pitches.LogChance(evidence.Notes[i].Midi)) * much,
            KeyOnOpen(),
            evidence.Chords.Sum(c => c.Share * neck.Open.Count(p => c.Tones[p % 12])) / neck.Strings,
            -Math.Clamp((evidence.Lowest ?? neck.Open[0]) - neck.Open.Min(), 0, 7),
            -Math.Clamp(TooLow, 0, 0.2) * much,
            used.Average(u => Math.Min(1, u / 0.03)),
            -reach.Sum(r => r.Say * r.Found.Effort),
            -reach.Sum(r => r.Say * r.Found.LeftOut),
            reach.Sum(r => r.Say * r.Found.OpenStrings),
            Length(i => path.Frets[i] == 0) - Length(i => path.Frets[i] > 0),
            .. evidence.Profiles.Around(neck.Open),
        ];
    }

    /// <summary>Players put the capo where the key falls on easy shapes, or tune to the keynote.</summary>
    private double KeyOnOpen()
    {
        var (tonic, standard) = (evidence.Key.Tonic.PitchClass, Tuning.Standard.Strings.Select(s => s.Midi).ToArray());
        if (neck.Strings != standard.Length || Enumerable.Range(1, 3).Select(s => neck.Open[s] - standard[s]).Distinct().Count() > 1)
            return neck.Open.GroupBy(p => p % 12).OrderByDescending(g => g.Count()).ThenBy(g => g.Min()).First().Key == tonic ? 1 : 0;
        int[] easy = evidence.Key.Mode.IsMinor ? [9, 4, 2] : [0, 7, 2, 9, 4];
        return easy.Contains((tonic - (neck.Open[1] - standard[1]) + 24) % 12) ? 1 : 0;
    }

    private double Weight(int note) => evidence.Notes[note].Confidence;

    private double Share(Func<int, bool> which) => heard.Where(which).Sum(Weight) / Math.Max(1e-9, heard.Sum(Weight));

    private double Mean(Func<int, double> of) => heard.Sum(i => Weight(i) * of(i)) / Math.Max(1e-9, heard.Sum(Weight));

    /// <summary>Mean natural log of the lengths in seconds, drawn towards a half.</summary>
    private double Length(Func<int, bool> which)
    {
        var lengths = heard.Where(which).Select(i => Math.Log(Math.Max(0.05, (evidence.Notes[i].End - evidence.Notes[i].Onset).Value))).ToArray();
        return (lengths.Sum() + 5 * Math.Log(0.5)) / (lengths.Length + 5);
    }
}
