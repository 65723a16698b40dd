using System.Collections.Concurrent;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Diagrams;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>Diagrams of a song's chords as they stand now and next, each engraved once. A chord without a shape is its name alone.</summary>
/// <param name="nowHeight">What the one to hold now may fill, in pixels.</param>
/// <param name="nextHeight">What the next one may fill.</param>
/// <param name="width">What either may fill across.</param>
internal sealed class DiagramShelf(Song song, double nowHeight, double nextHeight, double width)
{
    private const double WidestGap = 64;
    private const double NextShare = 0.85;

    private readonly ConcurrentDictionary<(string Name, string Shape, bool Now), Drawing> engraved = [];

    /// <summary>Large, with the notes that sound.</summary>
    public Drawing Now(ChordUse chord) => Find(chord, now: true);

    /// <summary>Smaller, for the fingers alone.</summary>
    public Drawing Next(ChordUse chord) => Find(chord, now: false);

    private Drawing Find(ChordUse chord, bool now) =>
        engraved.GetOrAdd((chord.Name, chord.Shape?.ToString() ?? "", now), _ =>
            now ? Engrave(chord, StringFoot.SoundingNotes, WidestGap, nowHeight) : Engrave(chord, StringFoot.Nothing, WidestGap * NextShare, nextHeight));

    private Drawing Engrave(ChordUse chord, StringFoot foot, double widest, double height)
    {
        if (chord.Shape is not { } shape)
            return NameAlone(CapoNames.Of(song)?.First(chord.Name) ?? chord.Name, height);
        var subject = ChordDiagramSubject.Of(song, shape, chord.Name, Standing.Decided);
        const double Unit = 10;
        var unit = ChordDiagram.Engrave(subject, new(Unit, Foot: foot, NameCapo: false));
        return ChordDiagram.Engrave(subject, new(Math.Min(widest, Unit * Math.Min(height / unit.Height, width / unit.Width)), Foot: foot, NameCapo: false));
    }

    private Drawing NameAlone(string name, double height)
    {
        var sketch = new Sketch();
        var lettering = ChordLettering.Fitting(name, Math.Min(120, height * 0.42), width, 0.1);
        lettering.Draw(sketch, 0, height * 0.5);
        return sketch.ToDrawing(lettering.Width, height, name);
    }
}
