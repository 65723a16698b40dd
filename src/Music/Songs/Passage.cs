using System.Collections.Immutable;

namespace Harkbook.Music.Songs;

/// <summary>Some bars of a song, for a hand-out: first and last, numbered as in the song.</summary>
public readonly record struct Passage
{
    private Passage(int first, int last) => (First, Last) = (first, last);

    public int First { get; }

    public int Last { get; }

    /// <param name="last">Not before the first.</param>
    public static Passage Of(int first, int last) => first >= 1 && last >= first
        ? new(first, last)
        : throw new ArgumentOutOfRangeException(nameof(last), (first, last), "A passage has one bar or more, numbered from 1, its first not after its last.");

    public static Passage Whole(Song song) => new(1, Math.Max(1, song.Bars.Count()));

    public bool Holds(Bar bar) => bar.Number >= First && bar.Number <= Last;

    /// <summary>
    /// The song with these bars and the shapes that they use only; a whole song stays as it is. Bars keep their numbers, so a part is
    /// there to be drawn: times and keys are the whole song's.
    /// </summary>
    public Song PartOf(Song song) => this == Whole(song) ? song : song with { Sections = SectionsOf(song), Shapes = ShapesOf(song) };

    private ImmutableArray<Section> SectionsOf(Song song)
    {
        var holds = Holds;
        return [.. song.Sections.Select(s => s with { Bars = [.. s.Bars.Where(holds)] }).Where(s => !s.Bars.IsEmpty)];
    }

    private ImmutableArray<NamedShape> ShapesOf(Song song)
    {
        var used = song.Bars.Where(Holds).SelectMany(b => b.Chords).Select(c => c.Value.Name).ToHashSet();
        return [.. song.Shapes.Where(s => used.Contains(s.Name))];
    }
}
