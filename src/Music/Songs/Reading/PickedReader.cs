using System.Globalization;
using System.Text.RegularExpressions;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Reads a note on a string: "5", "h7", "3h5", "x", "(5)", "&lt;12&gt;", "7b9r7~", "/5ring:p". Null with what is wrong.</summary>
internal static partial class PickedReader
{
    private const string Signs =
        "a fret from the capo, 0 to 36, * the fret of the bar's shape, or x muted; (5) is a ghost note, <12> a harmonic, 5<17> fret 5 touched at 17. "
        + "In front: h hammered on, p pulled off, s slid to, t tapped, / or \\ slid in from below or above; 3h5 has a grace note. "
        + "Behind: b9 bent to sound as fret 9, r back again, pb9 bent before it is picked, ~ vibrato, / or \\ slid off, ring rings on, :p :i :m :a :c the "
            + "picking finger.";

    /// <param name="shapeFret">What the bar's shape has on the string, for a cell that leaves the fret to the shape; null where it has
    /// none, which is told elsewhere.</param>
    public static (PickedNote? Note, string? Problem) Read(string text, int stringIndex, Func<int?> shapeFret)
    {
        if (Pattern().Match(text) is not { Success: true } match)
            return (null, $"'{text}' is no note on a string: {Signs}");
        string Of(string group) => match.Groups[group].Value;
        bool Has(string group) => match.Groups[group].Success;
        if ((Of("fret") == ShapeFrets.Sign ? shapeFret() : Number(Of("fret"))) is not { } fret)
            return (null, null);
        var attacks = match.Groups["link"].Captures.Select(c => AttackOf(c.Value)).Prepend(AttackOf(Of("start"))).ToArray();
        var graces = match.Groups["grace"].Captures.Select((c, i) => new GraceNote(Number(c.Value), attacks[i])).ToArray();
        var note = new PickedNote(stringIndex, fret, attacks[^1])
        {
            IsMuted = Has("muted"),
            IsGhost = Has("ghost"),
            TouchedAt = Has("touch") ? Number(Of("touch")) : null,
            HasVibrato = Has("vibrato"),
            SlideOff = Of("off") switch { "/" => SlideOff.Up, "\\" => SlideOff.Down, _ => SlideOff.None },
            LetsRing = Has("ring"),
            Finger = FingerOf(Of("finger")),
        };
        if (Has("to"))
            note = note with { Bend = new(Cents.FromCents(100.0 * (Number(Of("to")) - note.Fret) + (Has("half") ? 50 : 0)), Has("before"), Has("back")) };
        var problem = OfFrets(note, graces) ?? OfHarmonic(note) ?? (Has("to") ? OfBend(note, Of("back")) : null);
        return problem is null ? (note with { Graces = GraceNotes.Of(graces) }, null) : (null, problem);
    }

    private static string? OfFrets(PickedNote note, GraceNote[] graces) =>
        graces.Length > GraceNotes.Most
            ? $"{graces.Length} grace notes stand before this note; {GraceNotes.Most} at most. A comma splits a cell into notes: 2,h3."
        : graces.Select(g => g.Fret).Append(note.Fret).Append(note.TouchedAt
            ?? 0).Max() is > PickedNote.HighestFret and var fret ? $"Fret {fret} is past the neck's end; frets run from 0 to {PickedNote.HighestFret}."
        : null;

    private static string? OfHarmonic(PickedNote note) =>
        note.TouchedAt is { } touch && HarmonicNode.PartialAt(touch - note.Fret) is null
            ? $"No clear harmonic sounds {touch - note.Fret} frets above where the string is stopped; they lie 12, 7, 5, 19, 4, 9, 16, 24 and 3 frets above."
            : null;

    private static string? OfBend(PickedNote note, string back) =>
        note.Bend.By <= default(Cents) || note.Bend.By > Bend.Most
            ? $"Behind b comes the fret as which the bent note sounds, at most {Bend.Most.Value / 100:0} higher: {note.Fret}b{note.Fret + 1} is a half step, "
                + $"{note.Fret}b{note.Fret + 2} a whole one, {note.Fret}b{note.Fret}+1/2 a quarter tone."
        : back.Length > 1 && Number(back[1..]) != note.Fret ? $"A bend goes back to its own fret: r{note.Fret}."
        : null;

    private static int Number(string digits) =>
        digits.Length == 0 ? 0 : int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : int.MaxValue;

    private static Attack AttackOf(string sign) => sign switch
    {
        "h" => Attack.HammeredOn,
        "p" => Attack.PulledOff,
        "s" => Attack.Slid,
        "t" => Attack.Tapped,
        "/" => Attack.SlidFromBelow,
        "\\" => Attack.SlidFromAbove,
        _ => Attack.Picked,
    };

    private static PickingFinger FingerOf(string letter) => letter switch
    {
        "p" => PickingFinger.Thumb,
        "i" => PickingFinger.Index,
        "m" => PickingFinger.Middle,
        "a" => PickingFinger.Ring,
        "c" or "e" => PickingFinger.Little,
        _ => PickingFinger.None,
    };

    [GeneratedRegex("""
        ^ (?: (?<muted>x)
            | (?<start>[hpst/\\])? (?: (?<grace>[0-9]+) (?<link>[hpsg]) )*
              (?: (?<ghost>\() (?<fret>[0-9]+|\*) \) | (?<fret>[0-9]+|\*)? < (?<touch>[0-9]+) > | (?<fret>[0-9]+|\*) )
              (?: (?<before>p)? b (?<to>[0-9]+) (?<half>\+1/2)? (?<back>r[0-9]*(?!i))? )?
              (?<vibrato>~)? (?<off>[/\\])? (?<ring>ring)? )
          (?: : (?<finger>[pimace]) )? $
        """, RegexOptions.IgnorePatternWhitespace | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Pattern();
}
