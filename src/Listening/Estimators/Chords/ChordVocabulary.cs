using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>A kind of chord that is listened for, and how usual it is (natural log, 0 = the most usual; our own judgement).
/// <see cref="Index"/> is the place in <see cref="ChordVocabulary.Qualities"/>.</summary>
internal sealed record ListenedQuality(int Index, ChordQuality Quality, double Usual);

/// <summary>A chord state: root and bass as pitch classes; <see cref="Quality"/> is null where no chord sounds.</summary>
internal sealed record ChordState(int Root, ListenedQuality? Quality, Interval Bass)
{
    public bool[] Tones { get; } = ToneFlags(Root, Quality);

    public int BassClass => (Root + Bass.Semitones) % 12;

    public bool IsInverted => Bass.Semitones % 12 != 0;

    /// <summary>How usual the state is before anything is heard (natural log): its kind, and how its bass stands to it.</summary>
    public double Usual => Quality is null ? -3 : Quality.Usual + (IsInverted ? OfInversion(Quality.Quality, Bass.Semitones) : 0);

    /// <summary>Major triads over their third or fifth are common (G/B, D/F#, C/G); other inversions are rare.</summary>
    private static double OfInversion(ChordQuality quality, int bass) =>
        quality == ChordQuality.Major ? -1.7
        : bass is 10 or 11 && quality.PitchClasses.Contains(7) ? -2.2
        : quality == ChordQuality.Dominant7 || quality == ChordQuality.Minor ? -2.6
        : -3;

    private static bool[] ToneFlags(int root, ListenedQuality? quality)
    {
        var flags = new bool[12];
        foreach (var pc in quality?.Quality.PitchClasses ?? [])
            flags[(root + pc) % 12] = true;
        return flags;
    }
}

/// <summary>
/// Every chord that is listened for: 17 kinds on 12 roots, and no chord. Kinds that another name fits better once they are
/// turned over (a C6 over A is Am7) stand on their root only; the rest also over any of their own notes.
/// </summary>
internal static class ChordVocabulary
{
    private static readonly ChordQuality[] OnRootOnly =
    [
        ChordQuality.SuspendedFourth, ChordQuality.SuspendedSecond, ChordQuality.Major6, ChordQuality.Minor6,
        ChordQuality.Diminished7, ChordQuality.Augmented, ChordQuality.AddedNinth, ChordQuality.Dominant9, ChordQuality.Dominant7Suspended4,
    ];

    /// <summary>The state that stands for a chord: it, or that of its root, and its bass if there is one, with most of its notes and fewest others.</summary>
    public static int Nearest(Chord chord)
    {
        if (chord.IsNone)
            return 0;
        var tones = chord.PitchClasses;
        return Enumerable.Range(1, States.Length - 1).Where(s => States[s].Root == chord.Root.PitchClass)
            .MinBy(s => 2 * Enumerable.Range(0, 12).Count(pc => States[s].Tones[pc] != tones.Contains(pc))
                + (States[s].BassClass == chord.Bass.PitchClass ? 0 : 1));
    }

    /// <summary>In the order of the chord network's outputs (KINDS in training/chords/train.py).</summary>
    public static ImmutableArray<ListenedQuality> Qualities { get; } =
    [
        .. new (ChordQuality Quality, double Usual)[]
        {
            (ChordQuality.Major, 0), (ChordQuality.Minor, -0.1), (ChordQuality.Dominant7, -1.0), (ChordQuality.Minor7, -1.2),
            (ChordQuality.Major7, -1.4), (ChordQuality.SuspendedFourth, -2.1), (ChordQuality.SuspendedSecond, -2.7),
            (ChordQuality.Power, -4.0), (ChordQuality.Major6, -2.6), (ChordQuality.Minor6, -3.0), (ChordQuality.Diminished, -2.4),
            (ChordQuality.HalfDiminished7, -2.4), (ChordQuality.Diminished7, -2.6), (ChordQuality.Augmented, -3.2),
            (ChordQuality.AddedNinth, -2.8), (ChordQuality.Dominant9, -3.0), (ChordQuality.Dominant7Suspended4, -3.2),
        }.Select((q, i) => new ListenedQuality(i, q.Quality, q.Usual)),
    ];

    /// <summary>State 0 is "no chord".</summary>
    public static ImmutableArray<ChordState> States { get; } =
    [
        new(0, null, default),
        .. from root in Enumerable.Range(0, 12)
           from quality in Qualities
           from bass in quality.Quality.Intervals.Take(OnRootOnly.Contains(quality.Quality) ? 1 : 4)
           select new ChordState(root, quality, bass),
    ];
}
