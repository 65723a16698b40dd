using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Tabs;

/// <summary>
/// A note on a string as tab prints it (common practice): its fret, × where muted, in brackets where a ghost, in angle brackets where a
/// harmonic; in front h, p, s or t and small grace notes; slanted lines where the finger slides.
/// </summary>
internal sealed class TabCell
{
    private const double GraceShare = 0.76, LetterShare = 0.86, SlantShare = 0.62, BendShare = 0.5;
    private readonly double size;
    private readonly Capo capo;
    private readonly ImmutableArray<Part> parts;

    public TabCell(Claim<PickedNote> claim, double size, Capo capo)
    {
        (Claim, this.size, this.capo) = (claim, size, capo);
        parts = [.. Parts(claim.Value)];
        MainLeft = parts.TakeWhile(p => !p.IsMain).Sum(Width);
        MainRight = MainLeft + parts.Where(p => p.IsMain).Sum(Width);
    }

    public Claim<PickedNote> Claim { get; }

    public PickedNote Note => Claim.Value;

    public double FullWidth => parts.Sum(Width) + (Note.Bend.IsNone ? 0 : BendShare * size);

    /// <summary>Where the fret's own number begins and ends.</summary>
    public double MainLeft { get; }

    /// <inheritdoc cref="MainLeft"/>
    public double MainRight { get; }

    public double MainMiddle => (MainLeft + MainRight) / 2;

    /// <summary>Whether it goes on from the note before on its string.</summary>
    public static bool IsBoundTo(PickedNote note) =>
        (note.Graces.Count > 0 ? note.Graces[0].Attack : note.Attack) is Attack.HammeredOn or Attack.PulledOff or Attack.Slid;

    public void Draw(Sketch sketch, double left, double y, double scale)
    {
        var x = left;
        foreach (var part in parts)
        {
            if (part.Slant != 0)
                sketch.Line(x + 0.6 * scale, y + part.Slant * size * 0.27, x + (Width(part) - 0.6) * scale, y - part.Slant * size * 0.27, 0.8, Tint.Ink);
            else
                sketch.Text(part.Text, x, y + part.Size * scale * Middle(part), part.Face, part.Size * scale, Tint.Ink);
            x += Width(part) * scale;
        }
        if (Note.Graces.Count > 0 && parts.Any(p => p.IsBound))
            TabSlur.Draw(sketch, left + Width(parts[0]) * scale / 2, left + (Note.IsGhost ? MainLeft : MainMiddle) * scale, y - size * 0.38);
    }

    private sealed record Part(string Text, Face Face, double Size, int Slant = 0, bool IsMain = false, bool IsBound = false);

    /// <summary>From the baseline to a text's middle, in parts of its size.</summary>
    private static double Middle(Part part) => part.Text == "p" ? 0.24 : part.Text is "×" or "(" or ")" ? 0.31 : FontBook.CapHeight / 2;

    private double Width(Part part) => part.Slant != 0 ? SlantShare * size : FontBook.Width(part.Text, part.Face, part.Size);

    private IEnumerable<Part> Parts(PickedNote note)
    {
        if (note.IsMuted)
            return [new("×", Face.Strong, size * 1.2, IsMain: true)];
        var frets = note.Graces.All().Select(g => g.Fret).Append(note.Fret).ToArray();
        var attacks = note.Graces.All().Select(g => g.Attack).Append(note.Attack).ToArray();
        var graces = note.Graces.All().SelectMany((g, i) => Sign(attacks[i], i == 0 ? 0
            : g.Fret - frets[i - 1], i > 0).Append(new(Number(g.Fret), Face.Digits, size * GraceShare)));
        var last = Sign(note.Attack, frets.Length > 1 ? note.Fret - frets[^2] : 0, frets.Length > 1);
        return [.. graces, .. last, .. Main(note), .. Off(note.SlideOff)];
    }

    private IEnumerable<Part> Sign(Attack attack, int rise, bool inCell) => attack switch
    {
        Attack.HammeredOn => [Letter("h", inCell)],
        Attack.PulledOff => [Letter("p", inCell)],
        Attack.Slid when inCell => [new("", Face.Digits, size, rise < 0 ? -1 : 1, IsBound: true)],
        Attack.Slid => [Letter("s", inCell)],
        Attack.Tapped => [Letter("t", false)],
        Attack.SlidFromBelow => [new("", Face.Digits, size, 1)],
        Attack.SlidFromAbove => [new("", Face.Digits, size, -1)],
        _ => inCell ? [new(" ", Face.Narrow, size * 0.5)] : [],
    };

    private Part Letter(string letter, bool inCell) => new(letter, Face.NarrowStrong, size * LetterShare * (inCell ? 0.9 : 1), IsBound: inCell);

    private IEnumerable<Part> Off(SlideOff off) => off == SlideOff.None ? [] : [new("", Face.Digits, size, off == SlideOff.Up ? 1 : -1)];

    private IEnumerable<Part> Main(PickedNote note)
    {
        Part Bracket(string text) => new(text, Face.Narrow, size * 0.88, IsMain: true);
        Part Fret(int fret) => new(Number(fret), Face.Digits, size, IsMain: true);
        return note switch
        {
            { TouchedAt: { } touch } => [.. note.Fret == 0 ? Enumerable.Empty<Part>() : [Fret(note.Fret)], Bracket("<"), Fret(touch), Bracket(">")],
            { IsGhost: true } => [Bracket("("), Fret(note.Fret), Bracket(")")],
            _ => [Fret(note.Fret)],
        };
    }

    private string Number(int fret) => capo.Printed(Note.StringIndex, fret).ToString(CultureInfo.InvariantCulture);
}
