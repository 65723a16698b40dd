using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking;

/// <summary>The states by which a claimed chord is listened for: its own, or where its kind isn't listened for those that share most notes with it.</summary>
internal sealed class ClaimedChord
{
    private static readonly int[] thirds = [3, 4];
    private static readonly int[] sevenths = [9, 10, 11];

    private readonly bool[] own;

    private ClaimedChord(bool[] own, int root, int bass, bool hasBass)
    {
        this.own = own;
        (Root, Bass, HasBass) = (root, bass, hasBass);
    }

    public int Root { get; }

    public int Bass { get; }

    /// <summary>Whether some state that is listened for has the claimed bass.</summary>
    public bool HasBass { get; }

    public bool Holds(int state) => own[state];

    public static ClaimedChord Of(Chord chord)
    {
        var states = ChordVocabulary.States;
        if (chord.IsNone)
            return new([.. states.Select(s => s.Quality is null)], -1, -1, false);
        var (root, bass, notes) = (chord.Root.PitchClass, chord.Bass.PitchClass, chord.Quality.PitchClasses);
        var near = states.Select(s => s.Quality is { } q && s.Root == root ? Likeness(q.Quality.PitchClasses, notes)
            + (s.BassClass == bass ? 0.1 : s.IsInverted ? -0.1 : 0) : -1).ToArray();
        var best = near.Max();
        var own = near.Select(n => n > best - 1e-9).ToArray();
        return new(own, root, bass, states.Where((s, i) => own[i]).Any(s => s.BassClass == bass));
    }

    /// <summary>How many notes two kinds share, of all that either has.</summary>
    private static double Likeness(ImmutableArray<int> a, ImmutableArray<int> b) => (double)a.Intersect(b).Count() / a.Union(b).Count();

    /// <summary>For a state, which third it has, if any.</summary>
    public static int ThirdOf(ChordState state) => Only(state, thirds);

    /// <summary>Which sixth or seventh.</summary>
    public static int SeventhOf(ChordState state) => Only(state, sevenths);

    private static int Only(ChordState state, int[] of) => state.Quality?.Quality.PitchClasses.FirstOrDefault(of.Contains) ?? 0;
}
