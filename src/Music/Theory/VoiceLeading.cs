namespace Harkbook.Music.Theory;

/// <summary>How far the notes of one chord lie from those of the next, whatever the octaves.</summary>
public static class VoiceLeading
{
    /// <summary>
    /// The least total motion in semitones that takes every note of one chord to a note of the other and leaves none out.
    /// Chords of as many notes move voice by voice; notes of the smaller chord may be doubled to meet a larger one.
    /// C to C minor is 1, C to A minor 2. After D. Tymoczko, "The Geometry of Musical Chords", Science 313, 2006.
    /// </summary>
    /// <exception cref="ArgumentException">Where either is "no chord", which has no notes to move.</exception>
    public static int Distance(Chord from, Chord to)
    {
        if (from.IsNone || to.IsNone)
            throw new ArgumentException("No chord has no notes to move from or to.", from.IsNone ? nameof(from) : nameof(to));
        var (larger, smaller) = (from.PitchClasses, to.PitchClasses);
        if (larger.Length < smaller.Length)
            (larger, smaller) = (smaller, larger);
        var least = new int[1 << smaller.Length];
        Array.Fill(least, int.MaxValue / 2);
        least[0] = 0;
        foreach (var note in larger)
            least = Step(least, smaller, note, mayDouble: larger.Length > smaller.Length);
        return least[^1];
    }

    // least[set]: the least motion so far that has reached exactly that set of the smaller chord's notes.
    private static int[] Step(int[] least, IReadOnlyList<int> targets, int note, bool mayDouble)
    {
        var next = new int[least.Length];
        Array.Fill(next, int.MaxValue / 2);
        for (var reached = 0; reached < least.Length; reached++)
            for (var target = 0; target < targets.Count; target++)
                if (mayDouble || (reached >> target & 1) == 0)
                    next[reached | 1 << target] = Math.Min(next[reached | 1 << target], least[reached] + Motion(note, targets[target]));
        return next;
    }

    private static int Motion(int from, int to)
    {
        var up = Floor.Mod(to - from, 12);
        return Math.Min(up, 12 - up);
    }
}
