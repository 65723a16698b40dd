using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>Under a capo, the chords' other names: small below those that the song writes.</summary>
internal sealed class CapoNameRow(CapoNames? names, ChordRow chords) : BarRow
{
    private const double Size = 7.6;

    public override string Label => names is { HandFirst: true } ? "sounds" : "play";

    public override double Height => Size * 1.3;

    public override bool Has(Bar bar) => names is not null && bar.Chords.Any(c => names.Second(c.Value.Name).Length > 0);

    public override void Draw(Sketch sketch, BarSlot slot, double top)
    {
        for (var i = 0; i < slot.Bar.Chords.Length; i++)
        {
            if (slot.Bar.Chords[i] is { Value.Chord.IsNone: false } claim && !chords.GoesOn(slot.Bar, i)
                && names!.Second(claim.Value.Name) is { Length: > 0 } second)
                ChordLettering.Fitting(second, Size, chords.Room(slot, i), 0.1, Tint.Quiet).Draw(sketch, slot.X(claim.Start), top + Size * 0.9);
        }
    }
}
