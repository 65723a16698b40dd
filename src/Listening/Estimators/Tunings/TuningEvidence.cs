using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>What of a hearing bears on the tuning, gathered once for all candidates.</summary>
internal sealed class TuningEvidence
{
    private TuningEvidence(List<(int Midi, double Weight)> notes, List<(int[] Pitches, int Times)> groups, List<(bool[] Tones, double Share)> chords, Key key) =>
        (Notes, Groups, Chords, Key) = (notes, groups, chords, key);

    /// <summary>Pitches with the summed confidence of their notes.</summary>
    public List<(int Midi, double Weight)> Notes { get; }

    /// <summary>Sets of three to six pitches struck together and how often.</summary>
    public List<(int[] Pitches, int Times)> Groups { get; }

    /// <summary>Pitch classes of each chord and its share of the time.</summary>
    public List<(bool[] Tones, double Share)> Chords { get; }

    public Key Key { get; }

    public double TotalWeight => Notes.Sum(n => n.Weight);

    /// <summary>The lowest pitch heard more than in passing (2% of the weight, so that a stray sub-octave doesn't count).</summary>
    public int? Lowest => Notes.Where(n => n.Weight >= 0.02 * TotalWeight).Select(n => (int?)n.Midi).Min();

    public static TuningEvidence Of(ImmutableArray<HeardNote> notes, ImmutableArray<HeardChord> chords, Key key, TuningOptions options) =>
        new([.. notes.GroupBy(n => n.Midi).Select(g => (g.Key, g.Sum(n => n.Confidence)))], Struck(notes, options), Shares(chords), key);

    private static List<(int[] Pitches, int Times)> Struck(ImmutableArray<HeardNote> notes, TuningOptions options)
    {
        var groups = new Dictionary<string, (int[] Pitches, int Times)>();
        var rising = notes.OrderBy(n => n.Onset).ToList();
        for (int from = 0, to; from < rising.Count; from = to)
        {
            to = from + 1;
            while (to < rising.Count && rising[to].Onset - rising[from].Onset <= options.Together)
                to++;
            int[] pitches = [.. rising[from..to].Select(n => n.Midi).Distinct().Order()];
            if (pitches.Length is < 3 or > 6)
                continue;
            var name = string.Join(' ', pitches);
            groups[name] = (pitches, groups.GetValueOrDefault(name).Times + 1);
        }
        return [.. groups.Values.OrderByDescending(g => g.Times).Take(options.MostGroups)];
    }

    private static List<(bool[] Tones, double Share)> Shares(ImmutableArray<HeardChord> chords)
    {
        var sounding = chords.Where(c => !c.Chord.Best.IsNone).ToList();
        var total = sounding.Sum(c => (c.End - c.Start).Value);
        return [.. sounding.GroupBy(c => c.Chord.Best).Select(g =>
            (Enumerable.Range(0, 12).Select(pc => g.Key.PitchClasses.Contains(pc)).ToArray(), g.Sum(c => (c.End - c.Start).Value) / total))];
    }
}
