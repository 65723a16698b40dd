using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>Why a tuning was given its place, in a player's words.</summary>
internal sealed class TuningReasons(TuningEvidence evidence, TuningFit fit, MovedString? moved, ImmutableArray<Guitar> alike)
{
    /// <summary>A string whose open pitch takes less than this share of all notes counts as not heard open.</summary>
    private const double Seldom = 0.004;

    public override string ToString()
    {
        if (evidence.TotalWeight <= 0)
            return "No notes were heard, so this is only how usual the tuning is.";
        string?[] parts = [moved?.ToString(), Lowest(), Share(fit.OpenShare, "of notes are at open strings' pitches"), NotOpen(), TooLow(), Alike()];
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

    private Pitch Name(int midi) => Pitch.FromMidi(midi, evidence.Key.Centre);

    private static string Share(double share, string what) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0}% {what}");
}
