using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>Chord names where they begin, under a capo the song's own of the two; one that only goes on from the bar before is quiet, and a
/// section begins its first. A rest stands where the last one has ended.</summary>
internal sealed class ChordRow : BarRow
{
    private readonly Dictionary<Bar, string> before = new(ReferenceEqualityComparer.Instance);
    private readonly CapoNames? names;
    private readonly double size;
    private readonly Silences silences;

    public ChordRow(Song song, double size = 13) : this(Silences.Stretches(song), CapoNames.Of(song), size)
    {
    }

    /// <param name="bars">Bars that follow one another.</param>
    public ChordRow(IReadOnlyList<Bar> bars, CapoNames? names = null, double size = 13) : this([bars], names, size)
    {
    }

    private ChordRow(IEnumerable<IEnumerable<Bar>> stretches, CapoNames? names, double size)
    {
        (this.names, this.size, silences) = (names, size, Silences.OfChords(stretches));
        foreach (var bars in stretches)
        {
            var last = "";
            foreach (var bar in bars)
            {
                before[bar] = last;
                last = bar.Chords.IsEmpty ? "" : bar.Chords[^1].Value.Name;
            }
        }
    }

    public override string Label => "chords";

    public override double Height => size * 1.5;

    public override double LabelBaseline => size;

    public override bool Has(Bar bar) => !bar.Chords.IsEmpty || silences.In(bar).Count > 0;

    public override bool Fits(BarSlot slot) =>
        slot.Bar.Chords.Select((c, i) => ChordLettering.Of(Shown(c.Value.Name), size).Width <= Room(slot, i) / 0.8).All(fits => fits);

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        for (var i = 0; i < slot.Bar.Chords.Length; i++)
        {
            var claim = slot.Bar.Chords[i];
            var tint = GoesOn(slot.Bar, i) ? Tint.Quiet : Tint.Hand;
            var name = ChordLettering.Fitting(Shown(claim.Value.Name), size, Room(slot, i), 0.1, tint);
            var left = slot.X(claim.Start);
            name.Draw(sketch, left, top + size);
            if (claim.Standing.Kind == StandingKind.Heard)
                sketch.Dots(left, Math.Min(left + name.Width, left + Room(slot, i)), top + size + 3, 0.9);
        }
        DrawRests(sketch, slot, silences, top + size * 0.28, size * 0.74);
    }

    /// <summary>Whether a bar's chord only goes on from the bar before.</summary>
    internal bool GoesOn(Bar bar, int index) => index == 0 && before.GetValueOrDefault(bar) == bar.Chords[0].Value.Name;

    private string Shown(string name) => names?.First(name) ?? name;

    internal double Room(BarSlot slot, int index)
    {
        var start = slot.Bar.Chords[index].Start;
        var next = slot.Bar.Chords.Select(c => c.Start).Concat(silences.In(slot.Bar)).Where(s => s > start).Select(s =>
            slot.X(s) - 2.5).DefaultIfEmpty(slot.InnerRight).Min();
        return Math.Max(1, next - slot.X(start));
    }
}
