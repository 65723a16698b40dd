using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>A value of a voice and for how long it goes on; bar 1 is the section's first.</summary>
internal sealed record Sounding(int Bar, Beats Start, Beats Length, Leaf Leaf, Standing Standing);

/// <summary>A sign of a voice other than ".", at its place in its bar.</summary>
internal sealed record PlacedLeaf(Beats Start, Leaf Leaf, PartLine Line);

/// <summary>Walks a voice's bars and finds where each value starts and ends.</summary>
internal sealed class VoiceWalk(Func<int, Meter> meterOf, bool newInEachBar)
{
    private readonly List<Sounding> found = [];
    private Sounding? open;

    /// <param name="bars">In a bar that isn't there the voice is silent.</param>
    public List<Sounding> Walk(IReadOnlyDictionary<int, ImmutableArray<PlacedLeaf>> bars, int count)
    {
        for (var bar = 1; bar <= count; bar++)
        {
            if (!bars.TryGetValue(bar, out var written))
            {
                Close(bar, Beats.Zero);
                continue;
            }
            CrossBarLine(bar);
            foreach (var leaf in written)
                Take(leaf, bar);
        }
        Close(count + 1, Beats.Zero);
        return found;
    }

    private void Take(PlacedLeaf at, int bar)
    {
        Close(bar, at.Start);
        if (!at.Leaf.Silences)
            open = new(bar, at.Start, Beats.Zero, at.Leaf, at.Line.StandingOf(at.Leaf, bar, at.Start));
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
