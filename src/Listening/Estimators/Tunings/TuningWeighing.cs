using System.Globalization;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>Weighs one tuning with one capo against the evidence.</summary>
internal sealed class TuningWeighing
{
    private const double PerNote = 0.3;
    private const double PerGroup = 0.25;
    private const double OutOfReach = 8;
    private const double OpenChordTones = 1.5;
    private const double EasyKey = 0.7;

    private readonly TuningEvidence evidence;
    private readonly NamedTuning named;
    private readonly int capo;
    private readonly int[] open;
    private readonly NeckModel neck;
    private readonly int reached;

    public TuningWeighing(TuningEvidence evidence, NamedTuning named, int capo, TuningOptions options)
    {
        (this.evidence, this.named, this.capo) = (evidence, named, capo);
        open = [.. named.Tuning.Strings.Select(s => s.Midi + capo)];
        neck = new NeckModel(open);
        var efforts = evidence.Groups.Select(g => neck.Effort(g.Pitches)).ToList();
        reached = efforts.Count(e => e is not null);
        Score = Prior() + Notes(options) + Groups(efforts) + OpenChordTones * OpenShare() + Key();
    }

    /// <summary>Natural log; only differences between candidates mean anything.</summary>
    public double Score { get; }

    public Candidate<HeardTuning> WithConfidence(double confidence) =>
        new(new(named.Tuning, Capo.At(capo), named.Name), confidence, Reasons());

    private double Prior()
    {
        var tuning = named.Tuning.ToString() switch
        {
            "E2 A2 D3 G3 B3 E4" => 0,
            "D2 A2 D3 G3 B3 E4" => -1.8,
            "Eb2 Ab2 Db3 Gb3 Bb3 Eb4" or "D2 A2 D3 G3 A3 D4" or "D2 G2 D3 G3 B3 D4" or "D2 A2 D3 F#3 A3 D4" => -2.3,
            _ => -3.6,
        };
        return tuning + (capo == 0 ? 0 : capo <= 5 ? -2.2 : -3.2);
    }

    private double Notes(TuningOptions options)
    {
        var total = evidence.TotalWeight;
        return total <= 0 ? 0
            : PerNote * Math.Min(total, options.MostNotes) * evidence.Notes.Sum(n => n.Weight / total * neck.LogChance(n.Midi));
    }

    private double Groups(List<double?> efforts) => -PerGroup * efforts.Sum(e => e ?? OutOfReach) * Math.Min(1, 20.0 / Math.Max(1, efforts.Count));

    private double OpenShare() => evidence.Chords.Sum(c => c.Share * open.Count(p => c.Tones[p % 12]) / open.Length);

    /// <summary>Players put the capo where the key falls on easy shapes, or tune to the keynote.</summary>
    private double Key()
    {
        var tonic = evidence.Key.Tonic.PitchClass;
        if (Tuning.Standard.Strings.Zip(named.Tuning.Strings).Skip(1).Take(4).All(p => p.First.Midi - p.Second.Midi == Tuning.Standard.Strings[4].Midi - named.Tuning.Strings[4].Midi))
        {
            var shape = (tonic - (open[4] - Tuning.Standard.Strings[4].Midi) + 24) % 12;
            int[] easy = evidence.Key.Mode.IsMinor ? [9, 4, 2] : [0, 7, 2, 9, 4];
            return easy.Contains(shape) ? EasyKey : 0;
        }
        var commonest = open.GroupBy(p => p % 12).MaxBy(g => g.Count())!.Key;
        return commonest == tonic ? EasyKey : 0;
    }

    private string Reasons()
    {
        var total = evidence.TotalWeight;
        if (total <= 0)
            return "No notes were heard, so this is only how usual the tuning is.";
        var openShare = evidence.Notes.Where(n => neck.IsOpen(n.Midi)).Sum(n => n.Weight) / total;
        var below = evidence.Notes.Where(n => n.Midi < open.Min()).Sum(n => n.Weight) / total;
        var lowest = evidence.Lowest is { } midi
            ? $"the lowest note is {Pitch.FromMidi(midi, evidence.Key.Centre)}, {(open.Min() == midi ? "the open low string" : midi > open.Min() ? "above the open low string" : "below the lowest string")}; "
            : "";
        var reach = evidence.Groups.Count > 0 ? $"; {reached} of {evidence.Groups.Count} chords struck lie within a hand" : "";
        var stray = below > 0.005 ? string.Create(CultureInfo.InvariantCulture, $"; {below:0%} of notes lie too low for it") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{lowest}{openShare:0%} of notes are open strings{reach}{stray}");
    }
}
