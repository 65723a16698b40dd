using System.Collections.Immutable;
using Harkbook.Listening;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Analysis.Harmony;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;
using Harkbook.Workbench.Desk;

namespace Harkbook.Workbench.Sheet;

/// <summary>What may stand in a chord's place: what was heard there, and for a name the shapes that would sound it.</summary>
/// <param name="Bar">Through the song.</param>
/// <param name="At">Of the bar.</param>
public sealed record ChordOffer(DeskView View, int Bar, Beats At)
{
    private const int MostShapes = 8, MostNames = 6;

    public Claim<ChordUse>? Claim => View.Song.Bars.ElementAt(Bar - 1).Chords.LastOrDefault(c => c.Start <= At);

    private Claim<ChordUse>? Before
    {
        get
        {
            var bar = View.Song.Bars.ElementAt(Bar - 1);
            return bar.Chords.LastOrDefault(c => c.Start < At) ?? (Bar > 1 ? View.Song.Bars.ElementAt(Bar - 2).Chords.LastOrDefault() : null);
        }
    }

    /// <summary>Where the chord sounds in the record.</summary>
    public (Seconds From, Seconds To) Span
    {
        get
        {
            var (clock, claim) = (new SongClock(View.Song), Claim);
            var start = claim?.Start ?? At;
            return (clock.TimeOf(Bar, start), clock.TimeOf(Bar, start + (claim?.Length ?? View.Song.Bars.ElementAt(Bar - 1).Meter.BarLength - start)));
        }
    }

    /// <summary>The chords that were heard in its place, each as sure as in the stretch that shares most of it; the likeliest first.</summary>
    public ImmutableArray<Candidate<Chord>> Heard()
    {
        var (from, to) = Span;
        var nearest = View.Heard?.Chords.MaxBy(c => Math.Min(c.End.Value, to.Value) - Math.Max(c.Start.Value, from.Value));
        return nearest is null ? [] : [.. nearest.Chord.Candidates.Where(c => !c.Value.IsNone && c.Confidence >= 0.01).Take(MostNames)];
    }

    /// <summary>The shapes of a chord here, the best first.</summary>
    public ImmutableArray<OfferedShape> Shapes(Chord chord)
    {
        var (from, to) = Span;
        return [.. ShapeOffers.For(View.Heard?.Evidence.Notes ?? NotePosteriorgram.None, from, to, chord, View.Song.Tuning.Value, View.Song.Capo.Value,
            Before?.Value.Shape).Take(MostShapes)];
    }

    /// <summary>Frets or a name as a person types them: the shape where frets were typed, and its likeliest name here; null where it is neither.</summary>
    public (string Name, Shape? Shape)? Read(string text)
    {
        var (tuning, capo) = (View.Song.Tuning.Value, View.Song.Capo.Value);
        if (Shape.TryParse(text.Trim(), out var shape) && shape.Frets.Length == tuning.Count && shape.SoundingStrings > 0)
        {
            var key = View.Song.KeyAt(Bar);
            var names = NamesInContext.Said(NamesInContext.Rank(shape.Pitches(tuning, capo, key.Centre), key, Before?.Value.Chord), key);
            return (names.FirstOrDefault()?.Name.Symbol ?? Claim?.Value.Name ?? "N.C.", shape);
        }
        if (!ChordSymbol.TryRead(text.Trim(), out var chord))
            return null;
        // People type names as the song writes them.
        var sounding = CapoNames.Of(View.Song) is { HandFirst: true } hand && !chord.IsNone ? chord.Transposed(hand.Raise) : chord;
        return (ChordSymbol.Write(sounding), null);
    }

    /// <summary>
    /// Puts a chord here, decided, with the shape that was chosen: the song's own name for that shape where it has one; else the name's shape, if nothing
    /// else uses the name yet; else the name with a label behind it.
    /// </summary>
    public SongDocument Onto(SongDocument document, string symbol, Shape? shape)
    {
        var song = document.Song!;
        var same = song.Shapes.Where(s => s.Symbol == symbol).ToList();
        var name = shape is null ? same.Count > 0 ? same[0].Name : symbol
            : same.FirstOrDefault(s => s.Shape.WithoutFingers() == shape.WithoutFingers())?.Name ?? FreshName(song, symbol);
        var placed = document.WithChord(Bar, Claim?.Start ?? At, name, Standing.Decided);
        return shape is null ? placed
            : same.Any(s => s.Name == name) ? placed.WithShapeStanding(name, Standing.Decided)
            : placed.WithShape(name, shape, Standing.Decided);
    }

    /// <summary>The plain name, or the first "@2", "@3" … that no shape of the song has.</summary>
    private static string FreshName(Song song, string symbol)
    {
        var taken = song.Shapes.Select(s => s.Name).ToHashSet();
        return Enumerable.Range(1, taken.Count + 1).Select(n => n == 1 ? symbol : $"{symbol}@{n}").First(n => !taken.Contains(n));
    }
}
