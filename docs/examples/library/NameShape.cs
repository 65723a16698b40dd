using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Examples;

/// <summary>Names a shape in a tuning, the likeliest name in the key first, each with its reason.</summary>
public static class NameShape
{
    public static void Run(string frets, string openStrings, string key, TextWriter output)
    {
        var (shape, tuning, context) = (Shape.Parse(frets), Tuning.Parse(openStrings), Key.Parse(key));
        var names = ChordNaming.Rank(shape.Pitches(tuning, Capo.None), context);
        output.WriteLine($"{frets} sounds {string.Join(' ', shape.Pitches(tuning, Capo.None, names[0].Chord))}");
        foreach (var name in names.Take(3))
            output.WriteLine($"{name.Symbol}: {name.Reason}");
    }
}
