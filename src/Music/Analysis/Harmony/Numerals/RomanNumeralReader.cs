using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Analysis.Harmony.Numerals;

/// <summary>Reads a Roman numeral; null where the text is none.</summary>
internal sealed class RomanNumeralReader(string text, NumeralStyle style)
{
    private static readonly string[] Letters = ["VII", "VI", "IV", "V", "III", "II", "I"];
    private static readonly int[] Degrees = [7, 6, 4, 5, 3, 2, 1];

    private readonly TextCursor cursor = new(text);

    public RomanNumeral? Read()
    {
        var (own, target) = Split(text);
        if (target is null)
            return Sixth(text) ?? ReadOne(style);
        if (new RomanNumeralReader(target, style).ReadHead(style) is not { } home)
            return null;
        return new RomanNumeralReader(own, style).ReadPart(home);
    }

    private RomanNumeral? ReadPart(RomanNumeral target) => (Sixth(text) ?? ReadOne(NumeralStyle.AgainstMajor))?.AppliedTo(target);

    /// <summary>The numeral and, behind the last slash, the one that it is applied to; an arabic degree there is the bass.</summary>
    private static (string Own, string? Target) Split(string text)
    {
        var slash = text.LastIndexOf('/');
        return slash < 0 || !text[(slash + 1)..].Any(c => c is 'I' or 'V' or 'i' or 'v') ? (text, null) : (text[..slash], text[(slash + 1)..]);
    }

    private static RomanNumeral? Sixth(string text) => text switch
    {
        "It" or "It6" => RomanNumeral.Of(AugmentedSixth.Italian),
        "Fr" or "Fr4/3" or "Fr43" => RomanNumeral.Of(AugmentedSixth.French),
        "Ger" or "Ger6/5" or "Ger65" => RomanNumeral.Of(AugmentedSixth.German),
        _ => null,
    };

    /// <summary>A bare numeral: the triad that its case says.</summary>
    private RomanNumeral? ReadHead(NumeralStyle counted) =>
        TakeHead() is var (degree, sign, isMinor) && cursor.AtEnd
            ? RomanNumeral.Of(Interval.FromDegree(degree, sign + counted.Plain(degree, false)), isMinor ? ChordQuality.Minor : ChordQuality.Major)
            : null;

    private RomanNumeral? ReadOne(NumeralStyle counted)
    {
        if (TakeHead() is not var (degree, sign, isMinor))
            return null;
        var mark = cursor.TakeAny("o", "°") ? "o" : cursor.TakeAny("ø", "Ø") ? "ø" : cursor.Take("+") ? "+" : "";
        var figures = Figures.Take(cursor);
        var (quality, bass) = figures is var (bassDegree, isSeventh)
            ? (Figures.QualityOf(mark, isSeventh, isMinor), bassDegree)
            : (ReadKind(mark, isMinor), 1);
        if (quality is null)
            return null;
        var root = Interval.FromDegree(degree, sign + counted.Plain(degree, ChordTraits.IsDiminished(quality)));
        var (isGood, over) = figures is null ? ReadBass() : (cursor.AtEnd, null);
        return !isGood ? null
            : RomanNumeral.Of(root, quality, over ?? (bass == 1 ? root : root + quality.Intervals.First(i => i.Degree.Degree == bass)));
    }

    private (int Degree, int Sign, bool IsMinor)? TakeHead()
    {
        if (cursor.Take("N"))
            return (2, -1, false);
        var sharps = cursor.TakeRun('#');
        var sign = sharps > 0 ? sharps : -cursor.TakeRun('b');
        for (var i = 0; i < Letters.Length; i++)
        {
            if (cursor.Take(Letters[i]))
                return (Degrees[i], sign, false);
            if (cursor.Take(Letters[i].ToLowerInvariant()))
                return (Degrees[i], sign, true);
        }
        return null;
    }

    /// <summary>What is left, up to a bass, as the suffix of a chord symbol.</summary>
    private ChordQuality? ReadKind(string mark, bool isMinor)
    {
        var slash = text.LastIndexOf('/');
        var end = slash >= cursor.Index ? slash : text.Length;
        var rest = text[cursor.Index..end];
        cursor.Index = end;
        var symbol = mark switch
        {
            "o" => "Cdim" + rest,
            "ø" => "Cm7b5" + (rest.StartsWith('7') ? rest[1..] : rest),
            "+" => "Caug" + rest,
            _ => "C" + (isMinor ? "m" : "") + Sixths(rest),
        };
        return ChordSymbol.TryRead(symbol, out var chord) && !chord.IsNone && chord.Bass == chord.Root && chord.Root.ToString() == "C" ? chord.Quality : null;
    }

    /// <summary>"add6" stands for the symbol's "6", which is a first inversion here.</summary>
    private static string Sixths(string rest) =>
        rest.StartsWith("add6add9", StringComparison.Ordinal) ? "6/9" + rest[8..]
        : rest.StartsWith("add6", StringComparison.Ordinal) ? "6" + rest[4..]
        : rest;

    private (bool IsGood, Interval? Bass) ReadBass()
    {
        if (cursor.AtEnd)
            return (true, null);
        if (!cursor.Take("/"))
            return (false, null);
        var sharps = cursor.TakeRun('#');
        var sign = sharps > 0 ? sharps : -cursor.TakeRun('b');
        return cursor.TakeNumber(7) is { } degree && cursor.AtEnd ? (true, Interval.FromDegree(degree, sign)) : (false, null);
    }
}
