using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>Numerals and keys as players say them: "the flat seven chord", "D mixolydian".</summary>
public static class NumeralSpeech
{
    /// <summary>"four", "flat seven"; for an applied chord its root above the key's home note.</summary>
    public static string Root(RomanNumeral numeral)
    {
        var root = numeral.Target is { } target ? Interval.Between(default, default(PitchName) + target.Root + numeral.Root) : numeral.Root;
        var (degree, alteration) = root.Degree;
        return string.Concat(Enumerable.Repeat(alteration < 0 ? "flat " : "sharp ", Math.Abs(alteration))) + NumberWords.Of(degree);
    }

    /// <summary>"the four chord".</summary>
    public static string Chord(RomanNumeral numeral) => $"the {Root(numeral)} chord";

    /// <summary>"home", "leads home"; empty where a chord has no function.</summary>
    public static string Of(HarmonicFunction function) => function switch
    {
        HarmonicFunction.Home => "home",
        HarmonicFunction.NearHome => "near home",
        HarmonicFunction.Away => "away from home",
        HarmonicFunction.LeadsHome => "leads home",
        HarmonicFunction.LeadsElsewhere => "leads to another chord",
        _ => "",
    };

    /// <summary>"F sharp minor".</summary>
    public static string Of(Key key) => $"{ChordSpeech.Of(key.Tonic)} {key.Mode}";
}
