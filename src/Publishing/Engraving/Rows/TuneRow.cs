using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>
/// The tune by the names of its notes, a higher note a little higher, each with a line for as long as it is held. Octaves stand once, in the margin:
/// the lowest and the highest note of the line. Named as the song's file names its chords: by what sounds, or as the hand's.
/// </summary>
internal sealed class TuneRow : BarRow
{
    private const double Gap = 2.2, GoodMiss = 3.5, MostStep = 0.9, MostRise = 9, Foot = 4, Slant = 2.6;

    private readonly double size;
    private readonly ImmutableDictionary<int, TunePlayer> players;
    private readonly (Pitch Low, Pitch High)? span;
    private readonly Interval raise;

    /// <param name="size">Of the names, in points.</param>
    public TuneRow(Song song, double size = 7.8)
        : this(song.Sections.SelectMany(s => s.Bars.Select(b => (b.Number, Player: song.TunePlayerIn(s)))).ToImmutableDictionary(b => b.Number, b => b.Player),
            size, song.HandNames ?? Interval.Unison, null)
    {
    }

    private TuneRow(ImmutableDictionary<int, TunePlayer> players, double size, Interval raise, (Pitch Low, Pitch High)? span,
        string label = "tune") =>
        (this.players, this.size, this.raise, this.span, Label) = (players, size, raise, span, label);

    public override string Label { get; }

    /// <summary>Room for the octaves below the row's name, too.</summary>
    public override double Height => size + Math.Max(Rise, 4) + Foot;

    public override double LabelBaseline => size * 0.9;

    private double Rise => span is { } s ? Math.Min(MostRise, (s.High.Midi - s.Low.Midi) * MostStep) : 0;

    public override bool Has(Bar bar) => !bar.Tune.IsEmpty;

    /// <summary>Who plays it stands as the row's name where no voice sings it.</summary>
    public override BarRow For(IEnumerable<Bar> bars)
    {
        var here = bars.Where(Has).ToList();
        var notes = here.SelectMany(b => b.Tune).Select(n => n.Value.Pitch).OrderBy(p => p.Midi).ToList();
        var who = here.Select(b => players.GetValueOrDefault(b.Number)).Distinct().ToList();
        var label = who is [var one] && one != TunePlayer.Voice ? one == TunePlayer.LeadGuitar ? "lead" : one.InWords() : "tune";
        return notes.Count == 0 ? this : new TuneRow(players, size, raise, (notes[0], notes[^1]), label);
    }

    public override bool Fits(BarSlot slot) => Lay(slot) is { Scale: 1, Miss: <= GoodMiss };

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        var (spread, notes) = (Lay(slot), slot.Bar.Tune);
        for (var i = 0; i < notes.Length; i++)
        {
            var (left, baseline) = (spread.Lefts[i], Baseline(notes[i].Value.Pitch, top));
            var end = left + sketch.Text(Shown(notes[i].Value), left, baseline, Face.Narrow, size * spread.Scale, Tint.Voice, says: notes[i].Value.ToString());
            var held = Math.Min(slot.End(notes[i]) - 2, i + 1 < notes.Length ? spread.Lefts[i + 1] - Gap : slot.InnerRight);
            var y = baseline - size * 0.3;
            if (held - end > 4)
                sketch.Line(end + 1.5, y, held, y, 0.6, Tint.Voice);
            Slants(sketch, notes[i].Value, left, Math.Max(end, held), y);
        }
        MarkHeard(sketch, slot, notes, top + Height - 1.6);
    }

    public override void DrawMargin(Sketch sketch, double right, double top, double least = 6.6)
    {
        base.DrawMargin(sketch, right, top, least);
        if (span is not { } s)
            return;
        var (low, high) = (PitchText.Of(s.Low - raise), PitchText.Of(s.High - raise));
        sketch.Text(low == high ? low : $"{low}–{high}", right - 5, top + LabelBaseline + least, Face.Narrow, least * 0.88, Tint.Quiet, Align.Right);
    }

    private double Baseline(Pitch pitch, double top) =>
        top + size * 0.85 + (span is { } s && s.High.Midi > s.Low.Midi ? Rise * (s.High.Midi - pitch.Midi) / (s.High.Midi - s.Low.Midi) : 0);

    /// <summary>Short strokes before and behind a note that is scooped, glided to or left by a glide.</summary>
    private static void Slants(Sketch sketch, TuneNote note, double left, double right, double y)
    {
        var from = note.Approach switch { Approach.FromBelow or Approach.FromNoteBefore => Slant, Approach.FromAbove => -Slant, _ => 0 };
        var to = note.SlideOff switch { SlideOff.Up => -Slant, SlideOff.Down => Slant, _ => 0 };
        if (from != 0)
            sketch.Line(left - Slant, y + from, left - 0.4, y, 0.7, Tint.Voice);
        if (to != 0)
            sketch.Line(right + 0.4, y, right + Slant, y + to, 0.7, Tint.Voice);
    }

    private Spread Lay(BarSlot slot) => Spread.Of(
        [.. slot.Bar.Tune.Select(n => slot.X(n.Start) - 1.5)],
        [.. slot.Bar.Tune.Select(n => FontBook.Width(Shown(n.Value), Face.Narrow, size))],
        slot.InnerLeft, slot.InnerRight, Gap);

    /// <summary>The name, with how many whole steps it is bent and a wave for vibrato.</summary>
    private string Shown(TuneNote note) =>
        PitchText.Of(note.Pitch.Name - raise) + (note.Bend.IsNone ? "" : $"+{note.Bend.InSteps()}") + (note.HasVibrato ? "~" : "");
}
