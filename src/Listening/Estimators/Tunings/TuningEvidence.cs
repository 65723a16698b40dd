using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>What of a hearing bears on the tuning, gathered once for all candidates.</summary>
internal sealed class TuningEvidence
{
    private const int Stretches = 5, MostTelling = 150;

    /// <summary>The share of all notes' weight below which a pitch counts as heard in passing, so that a stray sub-octave doesn't count.</summary>
    private const double InPassing = 0.01;

    /// <param name="notes">Rising by onset.</param>
    /// <param name="stiff">What is known of their strings.</param>
    public TuningEvidence(ImmutableArray<HeardNote> notes, Key key, TuningOptions options, StiffNotes? stiff = null)
    {
        Stiff = stiff ?? StiffNotes.None;
        (Notes, Key) = (notes, key);
        Hand = options.Hand;
        Groups = Chosen(StruckNotes.Of(notes), options.MostGroups);
        Weights = new double[128];
        var (lengths, counts) = (new double[128], new double[128]);
        foreach (var note in Groups.SelectMany(g => g.Notes).Select(i => notes[i]))
        {
            var midi = Math.Clamp(note.Midi, 0, 127);
            Weights[midi] += note.Confidence;
            lengths[midi] += Math.Log(Math.Max(0.05, (note.End - note.Onset).Value));
            counts[midi]++;
        }
        LogLengths = [.. lengths.Select((l, m) => (l + Math.Log(0.5)) / (counts[m] + 1))];
        TotalWeight = Weights.Sum();
        Profiles = new(notes, Groups);
        Struck = HeldSet.Struck(notes, Groups, options.MostSets);
        Ringing = HeldSet.Ringing(notes, Groups, options.MostSets);
        Cuts = CutShort.Of(notes, Groups);
        (int Midi, int Note)[] telling = [.. Groups.SelectMany(g => g.Notes).Where(Stiff.Knows).Select(i => (notes[i].Midi, i))];
        Telling = [.. telling.Where((_, i) => i * (long)MostTelling % telling.Length < MostTelling)];
    }

    public ImmutableArray<HeardNote> Notes { get; }

    public StiffNotes Stiff { get; }

    /// <summary>Notes of whose strings something is known, of a long piece some: MIDI number, and which note.</summary>
    public ImmutableArray<(int Midi, int Note)> Telling { get; }

    /// <summary>The player's.</summary>
    public Hand Hand { get; }

    /// <summary>Notes struck together: all of a short piece, a few stretches of a long one.</summary>
    public IReadOnlyList<StruckNotes> Groups { get; }

    /// <summary>By MIDI number: the summed confidence of its notes.</summary>
    public double[] Weights { get; }

    public double TotalWeight { get; }

    /// <summary>By MIDI number: the mean natural log of its notes' seconds, drawn towards a half.</summary>
    public double[] LogLengths { get; }

    public PitchProfiles Profiles { get; }

    /// <summary>What was struck together.</summary>
    public ImmutableArray<HeldSet> Struck { get; }

    /// <summary>What sounded together.</summary>
    public ImmutableArray<HeldSet> Ringing { get; }

    /// <summary>Notes that end just as others start.</summary>
    public ImmutableArray<CutShort> Cuts { get; }

    public Key Key { get; }

    /// <summary>The lowest pitch heard more than in passing.</summary>
    public int? Lowest => Enumerable.Range(0, 128).Where(m => Weights[m] > 0 && Weights[m] >= InPassing * TotalWeight).Select(m => (int?)m).FirstOrDefault();

    private static List<StruckNotes> Chosen(List<StruckNotes> groups, int most)
    {
        if (groups.Count <= most)
            return groups;
        var (each, apart) = (most / Stretches, (groups.Count - most / Stretches) / (Stretches - 1));
        return [.. Enumerable.Range(0, Stretches).SelectMany(i => groups.Skip(i * apart).Take(each))];
    }
}
