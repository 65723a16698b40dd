using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Fretting;

namespace Harkbook.Listening.Estimators.Form;

/// <summary>What is done in each bar: how much of it is sung or blown, how often something is struck, and how much at once.</summary>
internal static class BarTexture
{
    /// <summary>So many strikes a bar, and notes at once, count 1.</summary>
    private const double Strikes = 8, Together = 6;

    /// <summary>Shape (bars, 4).</summary>
    /// <param name="starts">Where each bar starts, and where the last ends, in seconds.</param>
    public static double[][] Of(double[] starts, ImmutableArray<HeardNote> notes, HeardLines lines)
    {
        var struck = StruckNotes.Of(notes);
        var bars = starts.Zip(starts.Skip(1)).ToArray();
        return [.. bars.Select(bar =>
        {
            var own = struck.Where(s => s.Time >= bar.First && s.Time < bar.Second).ToArray();
            return new[]
            {
                Share(lines.Of(LineKind.Voice), bar), Share(lines.Of(LineKind.Harmonica), bar),
                Math.Min(1, own.Length / Strikes), own.Length == 0 ? 0 : Math.Min(1, own.Average(s => s.Notes.Length) / Together),
            };
        })];
    }

    /// <summary>How much of a bar a line sounds (0–1).</summary>
    private static double Share(HeardLine? line, (double First, double Second) bar) =>
        line is null ? 0 : line.Kind.Confidence * line.ShareOf(bar.First, bar.Second);
}
