using Harkbook.Listening.Checking;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;

namespace Harkbook.Bench.Planted;

/// <summary>A fret of a shape, in all bars that use it, one or two off.</summary>
internal sealed class ShapeErrors(Song song, Random chance)
{
    public IEnumerable<PlantedError> All() =>
        from name in song.Bars.SelectMany(b => b.Chords).Where(c => c.Value.Shape is not null).Select(c => c.Value.Name).Distinct()
        let shape = song.Bars.SelectMany(b => b.Chords).First(c => c.Value.Name == name && c.Value.Shape is not null).Value.Shape
        from s in Enumerable.Range(0, shape.Frets.Length)
        where shape.Frets[s] is not null
        select Off(name, shape, s);

    private PlantedError Off(string name, Shape shape, int s)
    {
        var right = shape.Frets[s]!.Value;
        var frets = new[] { -2, -1, 1, 2 }.Select(d => right + d).Where(f => f >= 0).ToArray();
        var wrong = Shape.Of(shape.Frets.SetItem(s, frets[chance.Next(frets.Length)]));
        var places = song.Bars.SelectMany(b => b.Chords.Where(c => c.Value.Name == name).Select(c => SongParts.At(b, c.Start))).ToArray();
        return new("fret in a shape one or two off", [ClaimKind.Shape], f => places.Any(p => p(f)))
        {
            Song = song with
            {
                Shapes = [.. song.Shapes.Select(n => n.Name == name ? n with { Shape = wrong } : n)],
                Sections = [.. song.Sections.Select(x => x with { Bars = [.. x.Bars.Select(b => b with { Chords = [.. b.Chords.Select(Swapped)] })] })],
            },
            Truth = [shape.WithoutFingers().ToString(), $"fret {right}"],
        };

        Claim<ChordUse> Swapped(Claim<ChordUse> c) => c.Value.Name == name ? c with { Value = c.Value with { Shape = wrong } } : c;
    }
}
