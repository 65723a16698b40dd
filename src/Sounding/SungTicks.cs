using Harkbook.Audio.Synthesis.Voices;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>
/// Marks where syllables are sung: where a song file claims their rhythm and no tune, each is a short voiced tick on the
/// root of the chord that it falls on.
/// </summary>
internal static class SungTicks
{
    private const double LongestSeconds = 0.2;
    private const int LowestMidi = 53;

    public static IEnumerable<VoiceTone> Of(Song song, IBarTimes times, Instruments instruments)
    {
        var hum = Vowel.All.Single(v => v.Name == "hud");
        foreach (var bar in song.Bars)
        {
            foreach (var claim in bar.Sung)
            {
                var start = times.At(bar.Number, claim.Start);
                var length = Math.Min(LongestSeconds, (times.At(bar.Number, claim.Start + claim.Length) - start).Value);
                yield return new(start, start + Seconds.FromSeconds(length), instruments.Frequency(Midi(bar, claim.Start, song)), 0.6, hum);
            }
        }
    }

    private static int Midi(Bar bar, Beats at, Song song)
    {
        var chord = bar.Chords.LastOrDefault(c => c.Start <= at)?.Value.Chord;
        var root = chord is null or { IsNone: true } ? song.Key.Value.Tonic : chord.Root;
        return LowestMidi + (root.PitchClass - LowestMidi % 12 + 12) % 12;
    }
}
