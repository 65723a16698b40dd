using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>A value of a voice and for how long it goes on; bar 1 is the section's first.</summary>
internal sealed record Sounding(int Bar, Beats Start, Beats Length, Leaf Leaf, Standing Standing);

/// <summary>Walks a voice's bars and finds where each value starts and ends.</summary>
internal sealed class VoiceWalk(Func<int, Meter> meterOf, bool newInEachBar)
{
    private readonly List<Sounding> found = [];
    private Sounding? open;

    public List<Sounding> Walk(Dictionary<int, (PartLine Line, BarSyntax Bar)> bars, int count)
    {
        for (var bar = 1; bar <= count; bar++)
        {
            if (!bars.TryGetValue(bar, out var written))
            {
                Close(bar, Beats.Zero);
                continue;
            }
            CrossBarLine(bar);
            foreach (var leaf in written.Bar.Leaves.Where(l => !l.GoesOn))
                Take(leaf, written.Line, bar);
        }
        Close(count + 1, Beats.Zero);
        return found;
    }

    private void Take(Leaf leaf, PartLine line, int bar)
    {
        var start = leaf.StartIn(meterOf(bar));
        Close(bar, start);
        if (!leaf.Silences)
            open = new(bar, start, Beats.Zero, leaf, line.StandingOf(leaf, bar, start));
    }

    private void CrossBarLine(int bar)
    {
        if (open is not { } held || (!newInEachBar && bar - held.Bar <= Claim<string>.LongestHold))
            return;
        Close(bar, Beats.Zero);
        if (newInEachBar)
            open = held with { Bar = bar, Start = Beats.Zero };
    }

    private void Close(int bar, Beats at)
    {
        if (open is not { } held)
            return;
        var length = at - held.Start;
        for (var b = held.Bar; b < bar; b++)
            length += meterOf(b).BarLength;
        if (length > Beats.Zero)
            found.Add(held with { Length = length });
        open = null;
    }
}
