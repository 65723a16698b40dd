using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>Why a tuning was given its place, in a player's words.</summary>
internal sealed class TuningReasons(TuningEvidence evidence, WeighedGuitar weighed)
{
    private readonly TuningFit fit = weighed.Fit;
    private readonly Guitar guitar = weighed.Guitar;
    private readonly ImmutableArray<Guitar> alike = [.. weighed.Alike.Where(g => g != weighed.Guitar)];

    /// <summary>A string whose open pitch takes less than this share of all notes counts as not heard open.</summary>
    private const double Seldom = 0.004;

    /// <summary>Of fewer notes nothing is said; and how likely a kind of string must be to be said.</summary>
    private const int FewNotes = 8;
    private const double Clear = 0.97;

    public override string ToString()
    {
        if (evidence.TotalWeight <= 0)
            return "No notes were heard, so this is only how usual the tuning is.";
        string?[] parts = 
        [
            guitar.Moved?.ToString(), Stiffness(), Lowest(), Share(fit.OpenShare, "of notes are at open strings' pitches"), NotOpen(), TooLow(), Alike(),
        ];
        return string.Join("; ", parts.Where(p => p is not null));
    }

    private string? Lowest() => evidence.Lowest is not { } midi ? null
        : $"the lowest note is {Name(midi)}, "
            + (fit.Open.Min() == midi ? "the open low string" : midi > fit.Open.Min() ? "above the open low string" : "below the lowest string");

    private string? NotOpen()
    {
        var silent = fit.Open.Where((_, s) => fit.OpenHeard[s] < Seldom).Distinct().Select(Name).ToArray();
        return silent.Length == 0 ? "every open string is heard" : $"hardly ever heard open: {string.Join(", ", silent)}";
    }

    private string? TooLow() => fit.TooLow > 0.005 ? Share(fit.TooLow, "of notes lie too low for it") : null;

    private string? Alike() => alike.IsEmpty ? null : $"its strings sound like {string.Join(" or ", alike)}";

    /// <summary>In how many notes the strings are as stiff as this guitar's, and on which string that is seen most.</summary>
    private string? Stiffness()
    {
        if (evidence.Telling.Length < FewNotes || weighed.Strings?.Constants is not { } constants)
            return null;
        var fits = constants.Fits(evidence.Telling);
        var s = Enumerable.Range(0, fits.Length).MaxBy(s => fits[s].Fitting);
        var (fitting, all) = fits[s];
        var kind = constants.Nylon > Clear ? "nylon " : constants.Nylon < 1 - Clear ? "steel " : "";
        return string.Create(CultureInfo.InvariantCulture,
            $"{kind}strings as stiff as its own in {fits.Sum(f => f.Fitting)} of {fits.Sum(f => f.All)} notes, "
                + $"string {fits.Length - s} ({guitar.Named.Tuning.Strings[s]}) in {fitting} of {all}");
    }

    private Pitch Name(int midi) => Pitch.FromMidi(midi, evidence.Key.Centre);

    private static string Share(double share, string what) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0}% {what}");
}
