using Harkbook.Listening.Evidence;
using Harkbook.Publishing.Drawings;
using Harkbook.Units;

namespace Harkbook.Jobs;

/// <summary>A stretch of a posteriorgram as grey cells, a row for each semitone: the surer that a pitch sounds, the darker; darkest where it starts.</summary>
public static class PosteriorStrip
{
    private const int Shades = 6;
    private const double Darkest = 0.42, Starting = 0.5;

    public static void Draw(Sketch sketch, NotePosteriorgram notes, Seconds from, Seconds to, int lowest, int highest, Func<Seconds, double> x,
        Func<int, double> y, double row)
    {
        var (first, last) = (notes.FrameAt(from), notes.FrameAt(to));
        for (var midi = Math.Max(lowest, notes.LowestMidi); midi <= Math.Min(highest, notes.LowestMidi + notes.Pitches - 1); midi++)
        {
            for (int start = first, end; start <= last; start = end)
            {
                var shade = Shade(notes, start, midi);
                for (end = start + 1; end <= last && Shade(notes, end, midi) == shade;)
                    end++;
                if (shade > 0)
                    sketch.Fill(new(x(notes.Hop * start), y(midi), x(notes.Hop * end), y(midi) + row), Tint.Ink, opacity: Opacity(shade));
            }
        }
    }

    private static double Opacity(int shade) => shade > Shades ? 0.85 : Darkest * shade / Shades;

    private static int Shade(NotePosteriorgram notes, int frame, int midi) => notes.Onset[frame, midi - notes.LowestMidi] > Starting ? Shades + 1
        : (int)Math.Round(notes.Sounding[frame, midi - notes.LowestMidi] * Shades);
}
