using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Training.SecondInstrument;

/// <summary>
/// A harmonica's line in a position, as players' method books lay it out (common practice): phrases with rests, mostly small steps
/// between holes, few changes of breath at random, bends and scoops where the position uses them, two or three holes together.
/// </summary>
internal sealed class HarpLine(Random random, Harmonica harp)
{
    private static readonly Dictionary<int, string[]> Vocabulary = new()
    {
        [1] = ["+3", "-3", "+4", "-4", "+5", "-5", "+6", "-6", "+7", "-7", "+8", "-8", "-2", "+2", "-2'", "-9", "+9", "-1", "+1"],
        [2] = ["-1", "-2''", "-2", "-2", "-3'", "-3", "+4", "-4", "-4'", "+5", "-5", "+6", "-6", "+3", "-3''", "+2", "-2'", "+7"],
        [3] = ["-1", "-2''", "-3''", "-4", "-5", "+6", "-6", "+4", "+5", "-3", "-7", "+7", "-8", "-4'", "-6", "-2", "+8"],
        [4] = ["-6", "-7", "+7", "-8", "+8", "-9", "+6", "-5", "+5", "-3''"],
        [12] = ["-5", "+6", "-6", "+7", "-8", "+8", "-9", "+9", "-2''", "-3''", "+4", "-4", "+5"],
    };

    public List<LineNote> Make(double length, double beat, int position)
    {
        var words = Vocabulary[position].Select(HarpNote.Parse).ToArray();
        var notes = new List<LineNote>();
        var (at, together, bends) = (words[random.Next(4)], random.NextDouble() * 0.45, random.NextDouble());
        for (var time = 0.2 + beat * random.Next(0, 5); time < length - 1.5;)
        {
            for (var left = random.Next(3, 12); left > 0 && time < length - 1.2; left--)
            {
                at = Next(words, at, bends);
                var duration = beat * (random.Next(10) switch { < 4 => 0.5, < 7 => 1, 7 => 1.5, 8 => 2, _ => random.Next(2) == 0 ? 0.25 : 3 });
                Blow(notes, at, time + 0.02 * (random.NextDouble() - 0.5), time + duration * (0.72 + 0.26 * random.NextDouble()), together);
                time += duration;
            }
            time += beat * random.Next(1, 6);
        }
        return notes;
    }

    private HarpNote Next(HarpNote[] words, HarpNote from, double bends)
    {
        var here = harp.PitchOf(from).Midi;
        var weights = words.Select(w =>
            Math.Exp(-Math.Abs(harp.PitchOf(w).Midi - here) / 3.0) * (w.Breath == from.Breath ? 1.6 : 1) * (w == from ? 0.35 : 1) * (w.Bend < 0 ? bends : 1)).ToArray();
        var draw = random.NextDouble() * weights.Sum();
        for (var i = 0; i < words.Length; i++)
        {
            draw -= weights[i];
            if (draw <= 0)
                return words[i];
        }
        return words[^1];
    }

    private void Blow(List<LineNote> notes, HarpNote note, double onset, double end, double together)
    {
        var count = note.Bend != 0 || random.NextDouble() > together ? 1 : random.NextDouble() < 0.25 ? 3 : 2;
        var down = random.Next(2) == 0;
        var velocity = 70 + random.Next(45);
        var scoop = note.Bend < 0 && random.NextDouble() < 0.5 ? 40 + 70 * random.NextDouble()
            : note.Bend == 0 && random.NextDouble() < 0.2 ? -30 - 90 * random.NextDouble() : 0;
        for (var i = 0; i < count; i++)
        {
            var hole = note with { Hole = note.Hole + (down ? -i : i) };
            if (harp.FindPitch(hole) is { } pitch)
                notes.Add(new(pitch.Midi, onset, end, velocity - 6 * i, scoop, i, hole));
        }
    }
}
