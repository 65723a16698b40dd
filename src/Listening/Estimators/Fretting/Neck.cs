using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Listening.Estimators.Fretting;

/// <summary>A guitar and the hand on it as the search needs them: open pitches, where frets lie for the hand, how far it reaches.</summary>
internal sealed class Neck
{
    /// <summary>Frets that are looked at, from the nut. Notes further up are rare.</summary>
    private const int Frets = 19;

    /// <param name="tuning">Up to twelve strings.</param>
    /// <param name="hand">A usual one where nobody said.</param>
    public Neck(Tuning tuning, Capo capo, Hand? hand = null)
    {
        Reach = FretReach.Of(hand ?? Hand.Usual);
        Open = [.. tuning.Strings.Select((p, s) => p.Midi + capo.Raises(s))];
        BehindCapo = [.. tuning.Strings.Select((_, s) => capo.Fret - capo.Raises(s))];
        LastPlace = Math.Max(1, Frets - capo.Fret);
    }

    /// <summary>MIDI numbers with the capo on, by string index (0 = the low side).</summary>
    public int[] Open { get; }

    public int Strings => Open.Length;

    public FretReach Reach { get; }

    /// <summary>The highest fret counted from the capo.</summary>
    public int LastPlace { get; }

    /// <summary>Frets by which a string that a partial capo leaves free reaches behind the capo.</summary>
    private int[] BehindCapo { get; }

    /// <summary>The fret, as shapes count it, that gives a pitch on a string; negative where none does.</summary>
    public int FretOf(int midi, int stringIndex)
    {
        var fret = midi - Open[stringIndex];
        return fret == 0 ? 0 : fret > BehindCapo[stringIndex] && Place(stringIndex, fret) <= LastPlace ? fret : -1;
    }

    /// <summary>Where a finger stands for a fret of a string, counted from the capo.</summary>
    public int Place(int stringIndex, int fret) => fret - BehindCapo[stringIndex];
}
