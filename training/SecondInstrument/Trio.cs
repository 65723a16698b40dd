using Harkbook.Audio.Signals;
using Harkbook.Listening;
using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Makes a guitar with a voice and a harmonica over it: in turn, the harmonica between the singer's phrases, both at once, or in turn and then together.</summary>
internal static class Trio
{
    private static readonly int[] Choirs = [52, 53, 54];

    /// <param name="index">Which piece: fixes how the two share the time and what sounds them, and with the seed all else.</param>
    public static Piece Make(int index, int seed, FontPlayer font, double length, Signal? rendered = null)
    {
        var random = new Random(seed * 20_011 + index);
        var beat = 60 / (65 + 75 * random.NextDouble());
        var position = random.Next(10) switch { < 5 => 1, < 9 => 2, _ => 3 };
        var key = Harmonica.UsualKeys[random.Next(12)];
        var harp = Harmonica.Richter(key);
        var tonic = harp.KeyInPosition(position);
        var guitar = Backing.Make(random, length, beat, tonic.PitchClass, position == 3, solo: false);
        var low = 48 + random.Next(3) * 5;
        var sung = PlainLine.Make(random, length, beat, tonic.PitchClass, position == 3, low, low + 16);
        var blown = new HarpLine(random, harp).Make(length, beat, position);
        Share(index % 4, sung, blown, length);
        var sound = rendered ?? Stage.Mix(Stage.Backed(guitar, font, random, length),
            [
                index / 4 % 2 == 0 ? Stage.Sung(sung, random, length) : font.Line(sung, Choirs[random.Next(3)], length, 0),
                index / 8 % 2 == 0 ? Stage.Reeds(blown, random, length, 24 * (random.NextDouble() - 0.5)) : font.Line(blown, 22, length, 24 * (random.NextDouble() - 0.5)),
            ], random);
        return new(sound, [new(LineKind.Voice, sung, null, 0), new(LineKind.Harmonica, blown, key, position)], tonic, position == 3);
    }

    private static void Share(int way, List<LineNote> sung, List<LineNote> blown, double length)
    {
        bool Sings(double time) => way switch { 0 => (int)(time / 8) % 2 == 0, 3 => (int)(time / 8) % 2 == 0 || time > length / 2, _ => true };
        bool Blows(double time) => way switch { 0 => !Sings(time), 1 => !sung.Any(n => n.Onset < time + 0.1 && n.End > time - 0.1), 3 => (int)(time / 8) % 2 == 1 || time > length / 2, _ => true };
        sung.RemoveAll(n => !Sings(n.Onset));
        blown.RemoveAll(n => !Blows(n.Onset));
    }
}
