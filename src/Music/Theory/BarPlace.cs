using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Music.Theory;

/// <summary>
/// A place in a bar and how players count it: "2", "2 &amp;", "2 e", "2 a"; thirds of a beat "2 la", "2 li"; sixths between them "2 ta".
/// Simple counting as in "Integrated Music Theory 2018–19", sections 4a and 4b, which also counts compound beats 1 la li.
/// </summary>
public readonly record struct BarPlace
{
    private BarPlace(Meter meter, Beats position)
    {
        Meter = meter;
        Position = position;
    }

    public Meter Meter { get; }

    /// <summary>Felt beats from the start of the bar: 0 up to, not including, the bar's length.</summary>
    public Beats Position { get; }

    /// <summary>A place counted in felt beats from the start of any bar; places beyond the bar wrap into it.</summary>
    public static BarPlace Of(Meter meter, Beats position) =>
        new(meter, Beats.Fraction(Floor.Mod(position.Numerator, meter.BeatsPerBar * position.Denominator), position.Denominator));

    /// <summary>Every place of a bar at so many a beat: 4 gives "1 e &amp; a 2 e …".</summary>
    public static ImmutableArray<BarPlace> Grid(Meter meter, int perBeat) =>
        perBeat is >= 1 and <= 48
            ? [.. Enumerable.Range(0, meter.BeatsPerBar * perBeat).Select(i => Of(meter, Beats.Fraction(i, perBeat)))]
            : throw new ArgumentOutOfRangeException(nameof(perBeat), perBeat, "A beat parts into 1 to 48 places.");

    /// <summary>Which felt beat it is in, 1 for the first.</summary>
    public int Beat => Position.Numerator / Position.Denominator + 1;

    /// <summary>How far into its beat, 0 up to 1.</summary>
    public Beats IntoBeat => Position - Beats.Whole(Beat - 1);

    public bool IsOnBeat => IntoBeat == Beats.Zero;

    /// <summary>What is said at this place: the beat's number, "&amp;", "e", "a", "la", "li" or "ta"; empty where counting has no word.</summary>
    public string Syllable => IsOnBeat
        ? Beat.ToString(CultureInfo.InvariantCulture)
        : (IntoBeat.Numerator, IntoBeat.Denominator) switch
        {
            (1, 3) => "la",
            (2, 3) => "li",
            (_, 6) => "ta",
            (1, 2) => Meter.IsCompound ? "ta" : "&",
            (1, 4) when !Meter.IsCompound => "e",
            (3, 4) when !Meter.IsCompound => "a",
            _ => "",
        };

    /// <summary>What is said at this place by a way of counting: <see cref="Syllable"/>, or the division's number and "&amp;" half-way to the next.</summary>
    public string Said(Counting counting) => !ByDivisions(counting) ? Syllable : IntoDivision.Denominator switch
    {
        1 => Division.ToString(CultureInfo.InvariantCulture),
        2 => "&",
        _ => "",
    };

    /// <summary>The place named by a way of counting: as <see cref="ToString"/>, or the division's number, "3" or "3 &amp;".</summary>
    public string Named(Counting counting) => !ByDivisions(counting) ? ToString()
        : IntoDivision == Beats.Zero ? Said(counting)
        : $"{Division} {(Said(counting) is { Length: > 0 } said ? said : "+" + IntoDivision)}";

    /// <summary>Which division of the bar it is in, 1 for the first.</summary>
    internal int Division => InDivisions.Numerator / InDivisions.Denominator + 1;

    /// <summary>How far into its division, 0 up to 1.</summary>
    internal Beats IntoDivision => InDivisions - Beats.Whole(Division - 1);

    internal bool ByDivisions(Counting counting) => counting == Counting.Divisions && Meter.IsCompound;

    private Beats InDivisions => Position * Meter.DivisionsPerBeat;

    /// <summary>
    /// The metrical weight: 0 on the downbeat, and one less for each level down (half bar, beat, division, its halves).
    /// In 4/4 and 2/4 as H. C. Longuet-Higgins and C. Lee, "The rhythmic interpretation of monophonic music",
    /// Music Perception 1(4), 1984; other meters by the same rule on their own levels.
    /// </summary>
    public int Weight
    {
        get
        {
            var level = 0;
            var span = Meter.BarLength;
            while (!Divides(span, Position) && level < 10)
            {
                span = Smaller(span);
                level++;
            }
            return -level;
        }
    }

    /// <summary>As players say it: "3", "2 &amp;"; the plain fraction where counting has no word.</summary>
    public override string ToString() =>
        IsOnBeat ? Syllable : $"{Beat} {(Syllable.Length > 0 ? Syllable : "+" + IntoBeat)}";

    private Beats Smaller(Beats span)
    {
        if (span == Meter.BarLength && Meter.BeatsPerBar > 1)
            return Meter.BeatsPerBar == 4 ? Beats.Whole(2) : Beats.Whole(1);
        if (span == Beats.Whole(2))
            return Beats.Whole(1);
        return span / (span == Beats.Whole(1) ? Meter.DivisionsPerBeat : 2);
    }

    private static bool Divides(Beats span, Beats position) =>
        (long)position.Numerator * span.Denominator % ((long)span.Numerator * position.Denominator) == 0;
}
