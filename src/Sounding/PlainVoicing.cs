using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Sounding;

/// <summary>Sounds a chord for which no shape is given: its bass on the lowest string that has it near, chord notes above.</summary>
internal static class PlainVoicing
{
    private const int HighestFret = 5;

    public static Shape Of(Chord chord, Fretboard neck)
    {
        var bass = Enumerable.Range(0, neck.Tuning.Count).FirstOrDefault(s => LowestFret(neck, s, [chord.Bass.PitchClass]) is not null);
        return Shape.Of([.. Enumerable.Range(0, neck.Tuning.Count).Select(s =>
            s < bass ? null : LowestFret(neck, s, s == bass ? [chord.Bass.PitchClass] : [.. chord.PitchClasses]))]);
    }

    private static int? LowestFret(Fretboard neck, int stringIndex, int[] pitchClasses)
    {
        for (var fret = 0; fret <= HighestFret; fret++)
        {
            if (pitchClasses.Contains(neck.MidiAt(stringIndex, fret) % 12))
                return fret;
        }
        return null;
    }
}
