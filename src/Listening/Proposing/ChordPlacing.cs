using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing;

/// <summary>A heard chord on the axis of beats, in divisions of the beat.</summary>
internal sealed record GridChord(int Start, int End, Chord Chord, double Confidence);

/// <summary>Lays heard chord spans on beats and cuts them at bar lines.</summary>
internal sealed class ChordPlacing(BeatAxis line, int divisions)
{
    /// <summary>How far from a whole beat a change must lie to be taken for one off the beat; in beats.</summary>
    private const double OnTheBeat = 0.25;

    public ImmutableArray<GridChord> Place(ImmutableArray<HeardChord> heard)
    {
        var placed = new List<GridChord>();
        foreach (var span in heard.Select(Place).Where(s => s.End > s.Start))
        {
            if (placed.Count > 0 && placed[^1] is var last && last.Chord == span.Chord && last.End == span.Start)
                placed[^1] = Joined(last, span);
            else
                placed.Add(span);
        }
        return [.. placed];
    }

    public ImmutableArray<Claim<ChordUse>> InBar(ProposedBar bar, ImmutableArray<GridChord> chords, IReadOnlyDictionary<Chord, Shape> shapes)
    {
        var (start, end) = (bar.FirstBeat * divisions, bar.EndBeat * divisions);
        return [.. chords.Where(c => c.Start < end && c.End > start)
            .Select(c => Claim(c, Math.Max(c.Start, start) - start, Math.Min(c.End, end) - start, shapes))];
    }

    private Claim<ChordUse> Claim(GridChord chord, int from, int to, IReadOnlyDictionary<Chord, Shape> shapes) => new(
        Beats.Fraction(from, divisions), Beats.Fraction(to - from, divisions),
        new(chord.Chord, ChordSymbol.Write(chord.Chord), shapes.GetValueOrDefault(chord.Chord)), Standing.HeardToThePercent(chord.Confidence));

    private GridChord Place(HeardChord heard) => new(Snapped(heard.Start.Value), Snapped(heard.End.Value), heard.Chord.Best, heard.Chord.Confidence);

    private int Snapped(double time)
    {
        var place = line.PlaceOf(time);
        var beat = Math.Round(place);
        return Math.Abs(place - beat) <= OnTheBeat ? (int)beat * divisions : (int)Math.Round(place * divisions);
    }

    /// <summary>Two spans of one chord are as sure as their lengths weigh them.</summary>
    private static GridChord Joined(GridChord a, GridChord b) => a with
    {
        End = b.End,
        Confidence = (a.Confidence * (a.End - a.Start) + b.Confidence * (b.End - b.Start)) / (b.End - a.Start),
    };
}
