using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>Diagrams of a song's chords in two sizes, each engraved once. A chord without a shape is its name alone.</summary>
/// <param name="room">The height that the large ones may fill, in pixels.</param>
internal sealed class DiagramShelf(Song song, double room) : IDisposable
{
    private readonly Dictionary<(string Name, string Shape, bool Large), Drawing> engraved = [];

    public Drawing Large(ChordUse chord) => Find(chord, large: true);

    public Drawing Small(ChordUse chord) => Find(chord, large: false);

    public void Dispose() => engraved.Clear();

    private Drawing Find(ChordUse chord, bool large)
    {
        var key = (chord.Name, chord.Shape?.ToString() ?? "", large);
        if (!engraved.TryGetValue(key, out var drawing))
            engraved[key] = drawing = Engrave(chord, large);
        return drawing;
    }

    private Drawing Engrave(ChordUse chord, bool large)
    {
        var height = large ? room : room * 0.72;
        if (chord.Shape is not { } shape)
            return NameAlone(chord.Name, height);
        var subject = new ChordDiagramSubject(shape, chord.Name, song.Tuning.Value, song.Capo.Value, Standing.Decided, song.Key.Value.Centre);
        var unit = ChordDiagram.Engrave(subject, Style(10));
        return ChordDiagram.Engrave(subject, Style(Math.Min(64, 10 * height / unit.Height)));
    }

    private static ChordDiagramStyle Style(double gap) => new(gap, Foot: StringFoot.SoundingNotes);

    private static Drawing NameAlone(string name, double height)
    {
        var sketch = new Sketch();
        var lettering = ChordLettering.Of(name, height * 0.3);
        lettering.Draw(sketch, 0, height * 0.4);
        return sketch.ToDrawing(lettering.Width, height);
    }
}
