using System.Collections.Immutable;

namespace Harkbook.Music.Theory.Symbols;

/// <summary>
/// What a set of semitones above a root is as a chord: each semitone gets the degree that its neighbours make it
/// (three semitones are a minor third, but a sharp ninth beside a major third). One reading for each of the 2048 sets.
/// </summary>
internal sealed record ChordReading(ChordQuality Quality, ImmutableArray<Interval> LeftOut, double Cost)
{
    private const double OmittedFifth = .6;
    private const double FirstChange = 2.4;
    private const double NextChange = 1.1;

    private const double TurnedSixth = .6;
    private const double TurnedMinor = .8;
    private const double TurnedAugmented = 1.2;

    private static readonly ChordReading?[] Known = new ChordReading?[4096];

    /// <summary>How surprising each kind is on a guitar, plain triads at 0. Judged, not measured: it only sets the order of names.</summary>
    private static readonly Dictionary<ChordQuality, double> Costs = new (string Symbol, double Cost)[]
    {
        ("", 0), ("m", 0), ("5", .5), ("7", 1), ("m7", 1), ("maj7", 1), ("sus4", 1.3), ("sus2", 1.3), ("m7b5", 1.4),
        ("dim", 1.5), ("dim7", 1.6), ("aug", 1.6), ("add9", 1.6), ("7sus4", 1.7), ("6", 1.8), ("9", 1.8), ("maj9", 1.8), ("m9", 1.8),
        ("m6", 2), ("madd9", 2), ("7#9", 2), ("7b9", 2), ("7#5", 2.1), ("m(maj7)", 2.1), ("6/9", 2.1), ("9sus4", 2.2), ("m11", 2.2),
        ("7add13", 2.2), ("m7add11", 2.2), ("13", 2.2), ("maj13", 2.4), ("m13", 2.4), ("maj7#11", 2.2), ("7b5", 2.3), ("m6/9", 2.4), ("13sus4", 2.4),
    }.ToDictionary(k => ChordSymbol.Read("C" + k.Symbol).Quality, k => k.Cost);

    /// <param name="semitones">Bit n set where n semitones above the root sound; bit 0 must be set.</param>
    public static ChordReading Of(int semitones) => Known[semitones] ??= Read(semitones);

    private static ChordReading Read(int set)
    {
        var degrees = new Degrees(set);
        var fifthMissing = degrees.Fifth is null && degrees.HasThirdOrFourth;
        var quality = ChordQuality.FromDegrees(degrees.Text + (fifthMissing ? " 5" : ""));
        ImmutableArray<Interval> leftOut = fifthMissing ? [Interval.ParseDegree("5")] : [];
        var lone = degrees.Count == 2 ? .5 : 0;
        return new(quality, leftOut, CostOf(quality) + (fifthMissing ? OmittedFifth + lone : 0));
    }

    /// <summary>What the kind itself costs, with all its notes sounding.</summary>
    public double WholeCost => CostOf(Quality);

    private static double CostOf(ChordQuality quality) =>
        Costs.TryGetValue(quality, out var cost) ? cost : FirstChange + NextChange * Math.Max(0, ChordSymbolWriter.Cost(quality) - 1) + Misheard(quality);

    /// <summary>
    /// Kinds that are usually another chord turned over: with a flat sixth (its root); minor with a flat ninth or thirteenth, or with sixth and
    /// eleventh (a dominant's or a major seventh's fifth in the bass); augmented with a note other than a seventh or ninth.
    /// </summary>
    private static double Misheard(ChordQuality quality)
    {
        var degrees = quality.Intervals.Select(i => i.DegreeName).ToHashSet();
        var isMinor = degrees.Contains("b3");
        return (degrees.Contains("b6") ? TurnedSixth : 0)
            + (isMinor && (degrees.Contains("b9") || degrees.Contains("b13") || degrees.IsSupersetOf(["6", "11"])) ? TurnedMinor : 0)
            + (degrees.IsSupersetOf(["3", "#5"]) && degrees.Overlaps(["6", "11", "#11", "b9", "#9"]) && !degrees.Overlaps(["b7", "7"]) ? TurnedAugmented : 0);
    }

    private readonly struct Degrees(int set)
    {
        public int Count => int.PopCount(set);

        public bool HasThirdOrFourth => Has(3) || Has(4) || Has(5);

        public string? Fifth =>
            Has(7) ? "5"
            : Has(6) && !Has(4) && Has(3) ? "b5"
            : Has(8) && Has(4) ? "#5"
            : Has(6) && Has(4) && !Has(11) ? "b5"
            : Has(6) && !Has(4) && !Has(3) && !HasSeventh ? "b5"
            : Has(8) && Has(3) && !HasSeventh ? "#5"
            : null;

        public string Text => string.Join(' ', All.Where(d => d is not null));

        private bool HasSeventh => Has(10) || Has(11);

        private bool IsDiminished7 => Has(9) && !HasSeventh && Fifth == "b5" && Has(3) && !Has(4);

        private IEnumerable<string?> All =>
        [
            "1", Third, Fifth,
            IsDiminished7 ? "bb7" : Has(9) ? HasSeventh ? "13" : "6" : null,
            Has(10) ? "b7" : null, Has(11) ? "7" : null,
            Has(1) ? "b9" : null, Has(2) && Third != "2" ? "9" : null, Has(3) && Has(4) ? "#9" : null,
            Has(5) && Third != "4" ? "11" : null, Has(6) && Fifth != "b5" ? "#11" : null,
            Has(8) && Fifth != "#5" ? HasSeventh ? "b13" : "b6" : null,
        ];

        private string? Third =>
            Has(4) ? "3" : Has(3) ? "b3" : Has(5) ? "4" : Has(2) && !HasSeventh ? "2" : null;

        private bool Has(int semitone) => (set >> semitone & 1) != 0;
    }
}
