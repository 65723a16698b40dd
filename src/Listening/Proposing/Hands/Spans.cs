using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>
/// How long what is played rings: to the next on its string or of its kind, to the end of its run of bars, and as long as a song file lets it.
/// </summary>
internal sealed class Spans(BeatAxis axis, BarRun run)
{
    public Beats Length((int Bar, Beats Start) from, (int Bar, Beats Start)? next)
    {
        var last = Math.Min(run.End, from.Bar + Claim<Stroke>.LongestHold + 1);
        var end = Absolute((last, Beats.Zero));
        if (next is { } other && Absolute(other) < end)
            end = Absolute(other);
        return end - Absolute(from);
    }

    private Beats Absolute((int Bar, Beats Start) place) =>
        Beats.Whole(place.Bar < axis.Bars.Length ? axis.Bars[place.Bar].FirstBeat : axis.Bars[^1].EndBeat) + place.Start;
}
