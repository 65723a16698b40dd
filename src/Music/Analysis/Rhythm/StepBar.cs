using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>A bar on a grid of steps, whose syncopation can be counted for any set of starts quickly: <see cref="SyncopationRule.InBar"/> on whole
/// numbers.</summary>
/// <param name="perBeat">The meter's divisions of the beat, or twice as many.</param>
internal readonly struct StepBar(Meter meter, int perBeat)
{
    public int Steps => meter.BeatsPerBar * perBeat;

    /// <param name="starts">Bit n set where something starts on step n.</param>
    public int Syncopation(int starts)
    {
        int? last = null;
        var sum = 0;
        Visit(0, Steps, 0, 0, starts, ref last, ref sum);
        return sum;
    }

    private void Visit(int start, int length, int depth, int weight, int starts, ref int? last, ref int sum)
    {
        var within = starts >> (start + 1) & ((1 << (length - 1)) - 1);
        if (within == 0)
        {
            if ((starts >> start & 1) != 0)
                last = weight;
            else if (last is { } note)
                sum += Math.Max(0, weight - note);
            return;
        }
        var parts = length > perBeat ? (meter.BeatsPerBar == 4 ? 2 : meter.BeatsPerBar) : length == perBeat ? meter.DivisionsPerBeat : 2;
        for (var i = 0; i < parts; i++)
            Visit(start + i * (length / parts), length / parts, depth + 1, i == 0 ? weight : -depth - 1, starts, ref last, ref sum);
    }
}
