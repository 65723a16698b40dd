namespace Harkbook.Music.Theory;

/// <summary>Chooses between the names of a root (G# or Ab) by how the whole chord is then spelled.</summary>
internal static class RootSpelling
{
    /// <summary>The root's name, never with a double sign: a chord on the flat second of Db is written D, not Ebb.</summary>
    public static PitchName Root(int pitchClass, ChordQuality quality, SoundingNotes notes, Key? key)
    {
        var best = default(PitchName);
        var lowest = int.MaxValue;
        for (var fifths = Floor.Mod(pitchClass * 7, 12) - 12; fifths <= 12; fifths += 12)
        {
            var root = PitchName.FromFifths(fifths);
            var cost = Math.Abs(root.Alteration) > 1 ? int.MaxValue - 1 : Cost(root, quality, notes, key);
            if (cost < lowest)
                (best, lowest) = (root, cost);
        }
        return best;
    }

    /// <summary>A bass that is foreign to the chord, named in the key or near the chord's root.</summary>
    public static PitchName Bass(int pitchClass, PitchName root, ChordQuality quality, Key? key)
    {
        var isMinor = quality.PitchClasses.Contains(3);
        return key?.Spell(pitchClass) ?? PitchName.FromPitchClass(pitchClass, root.Fifths + (isMinor ? -1 : 1));
    }

    private static int Cost(PitchName root, ChordQuality quality, SoundingNotes notes, Key? key) =>
        key is null ? CostAsGiven(root, quality, notes) : quality.Intervals.Sum(i => Math.Abs((root + i).Fifths - key.Tonic.Fifths));

    // A chord that came fully spelled keeps its spelling unless another is clearly simpler.
    private static int CostAsGiven(PitchName root, ChordQuality quality, SoundingNotes notes)
    {
        var (signs, respelled) = (0, 0);
        foreach (var interval in quality.Intervals)
        {
            var name = root + interval;
            signs += Signs(name);
            respelled += notes.Has(name.PitchClass) && !notes.Named(name) ? 1 : 0;
        }
        return signs + (respelled == 0 ? -1 : respelled);
    }

    /// <summary>Signs to read, with rare names (E#, B#, Cb, Fb and double signs) counted once more.</summary>
    private static int Signs(PitchName name) =>
        Math.Abs(name.Alteration) + (name.Fifths is > 10 or < -6 ? 1 : 0);
}
