using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Why a beat or a meter is believed, in players' words, from what was measured on one way to hear the beat.</summary>
internal static class PulseWords
{
    private const double Clear = 0.5;

    public static string OfTempo(BeatGrid grid)
    {
        var (placement, on) = (grid.Placement, grid.At(0));
        var words = new List<string> { $"something starts on {Percent(placement.Beats)} of its beats" };
        if (Division(placement) is { } division)
            words.Add(division);
        if (placement.HeldOver > 0.25)
            words.Add($"{Percent(placement.HeldOver)} of its halves come early and are held over the beat");
        if (Period(on, CueTable.Low) is { } bass)
            words.Add($"bass notes every {bass} beats");
        if (Period(on, CueTable.Harmony) is { } harmony)
            words.Add($"the harmony changes every {harmony} beats");
        if (placement.BeginsOnBeat)
            words.Add("the music begins on a beat");
        return string.Join("; ", words);
    }

    public static string OfMeter(BeatGrid grid, Meter meter, int phase)
    {
        var on = grid.At(0);
        var words = new List<string>();
        foreach (var (cue, name) in (ReadOnlySpan<(int, string)>)[(CueTable.Low, "the bass is strongest"), (CueTable.All, "strokes are strongest"), (CueTable.Harmony, "the harmony changes")])
        {
            if (on.Accent(cue, meter.BeatsPerBar, phase) > Clear * on.Spread(cue))
                words.Add($"{name} on the first of every {meter.BeatsPerBar} beats");
        }
        if (meter.IsCompound)
            words.Add($"something starts on {Percent((grid.Placement.Thirds + grid.Placement.TwoThirds) / 2)} of the thirds of the beat");
        if (phase == 0 && grid.Placement.BeginsOnBeat)
            words.Add("the music begins on a downbeat");
        return words.Count == 0 ? "no beat of the bar stands out" : string.Join("; ", words);
    }

    private static string Percent(double share) => $"{Math.Round(100 * share)} %";

    private static string? Division(Placement placement) => placement switch
    {
        { Quarters: > 0.6, Halves: > 0.6 } => "strokes on most quarters of it",
        { Thirds: > 0.6, TwoThirds: > 0.6, Halves: < 0.6 } => "strokes on most thirds of it",
        { TwoThirds: > 0.5, Halves: < 0.5 } => "the note between comes late, as in swing",
        { Halves: > 0.9 } => "strokes on every half of it",
        { Halves: > 0.15 } => $"strokes on {Percent(placement.Halves)} of its halves",
        _ => null,
    };

    private static int? Period(CueTable on, int cue)
    {
        var (period, accent) = ((int[])[2, 3, 4])
            .Select(p => (p, Enumerable.Range(0, p).Max(phase => on.Accent(cue, p, phase))))
            .MaxBy(x => x.Item2);
        return accent > Clear * on.Spread(cue) ? period : null;
    }
}
