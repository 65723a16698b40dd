using Harkbook.Audio.Signals;
using Harkbook.Listening;
using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Makes a guitar alone or with one line over it.</summary>
internal static class Duet
{
    private static readonly (LineKind Kind, int[] Programs, int Lowest, int Highest)[] Others =
        [(LineKind.Voice, [52, 53, 54], 48, 74), (LineKind.Whistle, [78, 73, 74, 75], 67, 91), (LineKind.Bowed, [40, 110], 56, 84)];

    /// <param name="index">Which piece: fixes its instruments, and with the seed all else.</param>
    public static Piece Make(int index, int seed, FontPlayer font, double length, Signal? rendered = null)
    {
        var random = new Random(seed * 10_007 + index);
        var beat = 60 / (65 + 75 * random.NextDouble());
        LineKind? kind = (index % 8) switch
        {
            < 3 => LineKind.Harmonica,
            3 => LineKind.Voice,
            4 => index % 16 == 4 ? LineKind.Voice : LineKind.Whistle,
            5 => index % 16 == 5 ? LineKind.Whistle : LineKind.Bowed,
            _ => null,
        };
        var position = random.Next(20) switch { < 8 => 1, < 15 => 2, < 18 => 3, 18 => 12, _ => 4 };
        var key = Harmonica.UsualKeys[random.Next(12)];
        var harp = Harmonica.Richter(key);
        var tonic = harp.KeyInPosition(position);
        var minor = kind == LineKind.Harmonica ? position is 3 or 4 : random.NextDouble() < 0.35;
        var guitar = Backing.Make(random, length, beat, tonic.PitchClass, minor, solo: kind is null);
        var choice = Others.FirstOrDefault(o => o.Kind == kind);
        List<LineNote> line = [];
        if (kind == LineKind.Harmonica)
            line = new HarpLine(random, harp).Make(length, beat, position);
        else if (kind is not null)
        {
            var shift = kind == LineKind.Voice ? random.Next(2) * 9 : 0;
            line = PlainLine.Make(random, length, beat, tonic.PitchClass, minor, choice.Lowest + shift, choice.Highest - 9 + shift);
        }
        var sound = rendered ?? Render(index, kind, choice.Programs, guitar, line, font, random, length);
        return new(sound, kind is { } k ? [new(k, line, k == LineKind.Harmonica ? key : null, position)] : [], tonic, minor);
    }

    private static Signal Render(int index, LineKind? kind, int[]? programs, List<GuitarNote> guitar, List<LineNote> line, FontPlayer font, Random random, double length)
    {
        var backing = Stage.Backed(guitar, font, random, length);
        var off = 24 * (random.NextDouble() - 0.5);
        float[][] others = kind switch
        {
            null => [],
            LineKind.Harmonica => [index / 8 % 2 == 0 ? Stage.Reeds(line, random, length, off) : font.Line(line, 22, length, off)],
            LineKind.Voice when random.Next(2) == 0 => [Stage.Sung(line, random, length)],
            _ => [font.Line(line, programs![random.Next(programs.Length)], length, off)],
        };
        return Stage.Mix(backing, others, random);
    }
}
