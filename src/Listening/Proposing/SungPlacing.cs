using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Where a voice was heard with the guitar, the starts of its notes become a sung rhythm of "x", on quarters of the beat, in a compound
/// meter on thirds. A syllable sung over several notes has an x too many, and a word begun again on the same note one too few: a person decides.
/// </summary>
internal sealed class SungPlacing
{
    /// <summary>How often an x was at a syllable's own place on the demo's song for a voice and a guitar (docs/listening.md).</summary>
    private const double OnsetsRight = 0.7;

    private readonly RhythmGrid grid;
    private readonly List<Placed> syllables = [];

    /// <summary>From one place to another, in steps of the grid from the first bar's start.</summary>
    private readonly record struct Placed(int Start, int End, double Confidence);

    /// <param name="sectionEnds">In beats from the first bar's start, rising.</param>
    public SungPlacing(HeardLine? voice, BeatAxis line, bool isCompound, IReadOnlyCollection<int> sectionEnds)
    {
        grid = new(line, isCompound, sectionEnds);
        if (voice is null || line.Bars.IsEmpty)
            return;
        var starts = voice.Notes.GroupBy(n => grid.Step(n.Onset)).OrderBy(g => g.Key).ToArray();
        for (var i = 0; i < starts.Length; i++)
        {
            var start = starts[i].Key;
            int? next = i + 1 < starts.Length ? starts[i + 1].Key : null;
            var end = grid.EndOf(start, grid.Step(starts[i].Max(n => n.End)), next);
            syllables.Add(new(start, end, OnsetsRight * voice.Kind.Confidence * starts[i].Max(n => n.Confidence)));
        }
    }

    public ImmutableArray<Claim<string>> InBar(ProposedBar bar) =>
        [.. syllables.Where(s => grid.IsIn(bar, s.Start)).Select(s => grid.Claim(bar, s.Start, s.End, "x", s.Confidence))];
}
