using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// The facts that speak for one meter and one place of the downbeat: accents of the bar's first beat over its third,
/// of its strong beats over its weak ones, in loudness, bass, treble and harmony; and how the beat divides.
/// <see cref="BarWeights"/> says how much each counts.
/// </summary>
internal static class BarEvidence
{
    public static readonly Meter[] Meters = [Meter.CommonTime, Meter.Of(3, 4), Meter.Of(6, 8), Meter.Of(2, 4)];

    public static readonly int Count = 3 * CueTable.Cues + 11;

    /// <param name="phase">The index of the first downbeat among the beats.</param>
    public static double[] Of(BeatGrid grid, Meter meter, int phase)
    {
        var on = grid.At(0);
        var values = new double[Count];
        for (var cue = 0; cue < CueTable.Cues; cue++)
        {
            var spread = on.Spread(cue);
            if (meter.BeatsPerBar == 3)
            {
                values[2 * CueTable.Cues + cue] = on.Accent(cue, 3, phase) / spread;
                continue;
            }
            values[CueTable.Cues + cue] = on.Accent(cue, 2, phase % 2) / spread;
            if (meter.BeatsPerBar == 4)
                values[cue] = 0.75 * (on.Accent(cue, 4, phase) - on.Accent(cue, 4, (phase + 2) % 4)) / spread;
        }
        AddDivision(values.AsSpan(3 * CueTable.Cues), grid, meter);
        AddEdges(values.AsSpan(3 * CueTable.Cues + 7), grid, meter.BeatsPerBar, phase);
        return values;
    }

    private static void AddDivision(Span<double> values, BeatGrid grid, Meter meter)
    {
        var octaves = Math.Log2(grid.BeatsPerMinute / 108);
        if (meter.BeatsPerBar == 3)
            (values[0], values[1]) = (1, octaves);
        else if (meter.IsCompound)
            (values[2], values[3], values[4], values[5]) = (1, octaves, Over(grid, 1 / 3.0), Over(grid, 2 / 3.0));
        else if (meter.BeatsPerBar == 2)
            values[6] = 1;
    }

    /// <summary>Music begins and ends on downbeats; chords that come early come just before one.</summary>
    private static void AddEdges(Span<double> values, BeatGrid grid, int bar, int phase)
    {
        var half = grid.At(0.5);
        values[0] = phase == 0 && grid.Placement.BeginsOnBeat ? 1 : 0;
        values[1] = (grid.Times.Length - 1 - phase) % bar == 0 && grid.Placement.EndsOnBeat ? 1 : 0;
        values[2] = half.Accent(CueTable.Harmony, bar, (phase + bar - 1) % bar) / half.Spread(CueTable.Harmony);
        values[3] = half.Accent(CueTable.All, bar, (phase + bar - 1) % bar) / half.Spread(CueTable.All);
    }

    private static double Over(BeatGrid grid, double fraction) =>
        (grid.At(fraction).Mean(CueTable.All) - grid.At(0.5).Mean(CueTable.All)) / grid.At(0).Spread(CueTable.All);
}
