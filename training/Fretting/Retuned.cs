using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Fretting;

/// <summary>Tunings of no catalogue: one or two strings of a known one moved by a few semitones.</summary>
internal static class Retuned
{
    public static NamedTuning Of(NamedTuning known, Random random)
    {
        var midi = known.Tuning.Strings.Select(s => s.Midi).ToArray();
        for (var moves = 1 + random.Next(2); moves > 0; moves--)
        {
            var (s, by) = (random.Next(midi.Length), random.Next(1, 4) * (random.Next(3) == 0 ? 1 : -1));
            if (midi[s] + by >= 36 && (s == 0 || midi[s] + by >= midi[s - 1]) && (s == 5 || midi[s] + by <= midi[s + 1]))
                midi[s] += by;
        }
        return known with { Name = "retuned", Tuning = Tuning.Of([.. midi.Select(m => Pitch.FromMidi(m, 2))]) };
    }
}
