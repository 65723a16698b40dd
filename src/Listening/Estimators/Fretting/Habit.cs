using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>
/// Players sound a pitch where they sounded it before. What a first search found says where that is; chords, whose places are
/// surer, say it louder, and the near past and future louder than the far.
/// </summary>
internal sealed class Habit
{
    private const double SecondsThatMatter = 15, ChordsSay = 3, Reluctance = 1;

    private readonly double[][] costs;

    private Habit(double[][] costs) => this.costs = costs;

    /// <summary>What playing a note on a string costs.</summary>
    public double Cost(int note, int stringIndex) => costs[note][stringIndex];

    public static Habit Of(FretPath path, ImmutableArray<HeardNote> notes, IReadOnlyList<StruckNotes> groups, Neck neck, FretWeights weights)
    {
        var say = new double[notes.Length];
        foreach (var group in groups)
        {
            foreach (var note in group.Notes)
                say[note] = path.Confidence[note] * (group.Notes.Length >= 3 ? ChordsSay : 1);
        }
        var byPitch = Enumerable.Range(0, notes.Length).Where(i => path.Strings[i] >= 0).ToLookup(i => notes[i].Midi);
        return new([.. Enumerable.Range(0, notes.Length).Select(i => Costs(i, byPitch[notes[i].Midi], path, say, notes, neck, weights))]);
    }

    private static double[] Costs(int note, IEnumerable<int> alike, FretPath path, double[] say, ImmutableArray<HeardNote> notes, Neck neck,
        FretWeights weights)
    {
        var counts = new double[neck.Strings];
        foreach (var other in alike.Where(o => o != note))
            counts[path.Strings[other]] += say[other] * Math.Exp(-Math.Abs((notes[other].Onset - notes[note].Onset).Value) / SecondsThatMatter);
        var total = counts.Sum() + Reluctance;
        return [.. counts.Select(c => weights.Habit * (1 - (c + Reluctance / neck.Strings) / total))];
    }
}
