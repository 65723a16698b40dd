namespace Harkbook.Training.SecondInstrument;

/// <summary>A line for a voice, a whistle or another instrument that has no holes to tell.</summary>
internal static class PlainLine
{
    private static readonly int[] Major = [0, 2, 4, 5, 7, 9, 11];
    private static readonly int[] Minor = [0, 2, 3, 5, 7, 8, 10];

    public static List<LineNote> Make(Random random, double length, double beat, int tonic, bool minor, int lowest, int highest)
    {
        var (scale, notes, midi) = (minor ? Minor : Major, new List<LineNote>(), (lowest + highest) / 2);
        for (var time = 0.2 + beat * random.Next(0, 5); time < length - 1.5;)
        {
            for (var left = random.Next(3, 12); left > 0 && time < length - 1.2; left--)
            {
                midi = Math.Clamp(midi + random.Next(-4, 5), lowest, highest);
                while (!scale.Contains((midi - tonic + 120) % 12))
                    midi++;
                var duration = beat * (random.Next(10) switch { < 4 => 0.5, < 7 => 1, 7 => 1.5, 8 => 2, _ => 3 });
                var scoop = random.NextDouble() < 0.3 ? -40 - 110 * random.NextDouble() : 0;
                notes.Add(new(midi, time + 0.02 * (random.NextDouble() - 0.5), time + duration * (0.75 + 0.23 * random.NextDouble()), 65 + random.Next(50), scoop));
                time += duration;
            }
            time += beat * random.Next(1, 6);
        }
        return notes;
    }
}
