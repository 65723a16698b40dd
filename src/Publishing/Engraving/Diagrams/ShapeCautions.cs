using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Diagrams;

/// <summary>What must be known of a song's shapes before one is tried, right under their diagrams.</summary>
internal static class ShapeCautions
{
    private const double Size = 8;

    /// <summary>Null where there is nothing to say.</summary>
    public static Drawing? Engrave(Song song, double width)
    {
        var lines = Sentences(song).SelectMany(s => TextWrap.Lines(s, Face.Text, Size, width)).ToArray();
        if (lines.Length == 0)
            return null;
        var sketch = new Sketch();
        for (var i = 0; i < lines.Length; i++)
            sketch.Text(lines[i], 0, Size + i * Size * 1.35, Face.Text, Size);
        return sketch.ToDrawing(width, lines.Length * Size * 1.35 + 2);
    }

    private static IEnumerable<string> Sentences(Song song)
    {
        if (song.Shapes.Any(s => s.Standing.Kind == StandingKind.Assumed))
            yield return "These shapes were found for this capo by the program, and no person has tried them: take another where one doesn't lie well, and "
                + "leave out what hurts.";
        var capo = song.Capo.Value.Fret == 0 ? "" : $" with capo {song.Capo.Value.Fret}";
        foreach (var (shape, against) in WrongShapes.Of(song))
            yield return $"{shape.Shape.WithoutFingers()}{capo} sounds {PitchText.Signed(against.Sounds.ToString())}, not {PitchText.Signed(shape.Symbol)}: "
                + "the shape or the name is wrong.";
    }
}
