using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>What of a hearing bears on the tuning, gathered once for all candidates.</summary>
internal sealed class TuningEvidence
{
    private const int Stretches = 5;

    public TuningEvidence(ImmutableArray<HeardNote> notes, ImmutableArray<HeardChord> chords, Key key, TuningOptions options)
    {
        (Notes, Key) = (notes, key);
        Groups = Chosen(StruckNotes.Of(notes), options.MostGroups);
        Pitches = [.. notes.GroupBy(n => n.Midi).Select(g => (g.Key, g.Sum(n => n.Confidence)))];
        TotalWeight = Pitches.Sum(p => p.Weight);
        Chords = Shares(chords);
        Profiles = new(notes, Groups);
        Together = SoundingTogether.Of(notes, chords, options.MostSets);
    }

    public ImmutableArray<HeardNote> Notes { get; }

    /// <summary>Notes struck together: all of a short piece, a few stretches of a long one.</summary>
    public IReadOnlyList<StruckNotes> Groups { get; }

    /// <summary>Pitches with the summed confidence of their notes.</summary>
    public ImmutableArray<(int Midi, double Weight)> Pitches { get; }

    public double TotalWeight { get; }

    /// <summary>Pitch classes of each chord and its share of the time.</summary>
    public ImmutableArray<(bool[] Tones, double Share)> Chords { get; }

    public PitchProfiles Profiles { get; }

    /// <summary>Different sets of pitches that a hand held at once, and how much each says.</summary>
    public ImmutableArray<(int[] Pitches, double Say)> Together { get; }

    public Key Key { get; }

    /// <summary>The lowest pitch heard more than in passing (2% of the weight, so that a stray sub-octave doesn't count).</summary>
    public int? Lowest => Pitches.Where(p => p.Weight >= 0.02 * TotalWeight).Select(p => (int?)p.Midi).Min();

    private static List<StruckNotes> Chosen(List<StruckNotes> groups, int most)
    {
        if (groups.Count <= most)
            return groups;
        var (each, apart) = (most / Stretches, (groups.Count - most / Stretches) / (Stretches - 1));
        return [.. Enumerable.Range(0, Stretches).SelectMany(i => groups.Skip(i * apart).Take(each))];
    }

    private static ImmutableArray<(bool[] Tones, double Share)> Shares(ImmutableArray<HeardChord> chords)
    {
        var sounding = chords.Where(c => !c.Chord.Best.IsNone).ToList();
        var total = sounding.Sum(c => (c.End - c.Start).Value);
        return [.. sounding.GroupBy(c => c.Chord.Best).Select(g =>
            (Enumerable.Range(0, 12).Select(pc => g.Key.PitchClasses.Contains(pc)).ToArray(), g.Sum(c => (c.End - c.Start).Value) / total))];
    }
}
