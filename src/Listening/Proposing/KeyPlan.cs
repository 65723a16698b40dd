using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Proposing;

/// <summary>Puts heard keys on bars: a key holds from the bar line nearest to where it was heard to start.</summary>
internal sealed class KeyPlan
{
    private readonly ImmutableArray<HeardKey> ofBar;
    private readonly Key main;

    /// <param name="main">The song's key, in which every section starts.</param>
    public KeyPlan(ImmutableArray<HeardKey> heard, BeatAxis line, Key main)
    {
        var starts = heard.Select(k => (Key: k, Bar: SectionPlan.NearestBar(k.Start.Value, line))).ToList();
        ofBar = heard.IsEmpty ? [] : [.. Enumerable.Range(0, line.Bars.Length).Select(bar => starts.LastOrDefault(s => s.Bar <= bar, starts[0]).Key)];
        this.main = main;
    }

    /// <summary>The key heard at a bar, by index.</summary>
    public Key At(int bar) => bar < ofBar.Length ? ofBar[bar].Key.Best : main;

    /// <summary>The changes that a section needs so that each of its bars stands in the key that was heard there.</summary>
    public ImmutableArray<KeyChange> In(PlannedSection section)
    {
        var changes = ImmutableArray.CreateBuilder<KeyChange>();
        var current = main;
        for (var bar = section.FirstBar; bar < Math.Min(section.EndBar, ofBar.Length); bar++)
        {
            var heard = ofBar[bar].Key;
            if (heard.Best == current)
                continue;
            current = heard.Best;
            changes.Add(new(bar - section.FirstBar + 1, current) { Standing = Standing.HeardToThePercent(heard.Confidence) });
        }
        return changes.ToImmutable();
    }
}
