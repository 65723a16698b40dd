using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>Why a tuning was given its place, in a player's words.</summary>
internal sealed class TuningReasons(TuningEvidence evidence, TuningFit fit, ImmutableArray<Guitar> alike)
{
    public override string ToString()
    {
        if (evidence.TotalWeight <= 0)
            return "No notes were heard, so this is only how usual the tuning is.";
        string?[] parts = [Lowest(), Share(fit.OpenShare, "of notes are open strings"), TooLow(), Unplaced(), Alike()];
        return string.Join("; ", parts.Where(p => p is not null));
    }

    private string? Lowest() => evidence.Lowest is not { } midi ? null
        : $"the lowest note is {Pitch.FromMidi(midi, evidence.Key.Centre)}, "
            + (fit.LowestOpen == midi ? "the open low string" : midi > fit.LowestOpen ? "above the open low string" : "below the lowest string");

    private string? TooLow() => fit.TooLow > 0.005 ? Share(fit.TooLow, "of notes lie too low for it") : null;

    private string? Unplaced() => fit.Unplaced - fit.TooLow > 0.02 ? Share(fit.Unplaced - fit.TooLow, "of notes find no string within the hand's reach") : null;

    private string? Alike() => alike.IsEmpty ? null : $"its strings sound like {string.Join(" or ", alike)}";

    private static string Share(double share, string what) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0}% {what}");
}
