using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Where a voice was heard with the guitar, the starts of its notes become a sung rhythm of "x", on quarters of the beat, in a compound
/// meter on thirds. A syllable sung over several notes has an x too many, and a word begun again on the same note one too few: a person decides.
/// </summary>
internal sealed class SungPlacing
{
    private const int Simple = 4;

    /// <summary>How often a note of the line starts where it is heard to: its onset F on made pieces (docs/listening.md).</summary>
    private const double OnsetsRight = 0.7;

    private readonly int grid;
    private readonly List<Placed> syllables = [];

    /// <summary>From one place to another, in steps of the grid from the first bar's start.</summary>
    private readonly record struct Placed(int Start, int End, double Confidence);

    /// <param name="sectionEnds">In beats from the first bar's start, rising.</param>
    public SungPlacing(HeardSecondInstrument heard, BeatLine line, bool isCompound, IReadOnlyCollection<int> sectionEnds)
    {
        grid = isCompound ? 3 : Simple;
        if (heard.Kind.Best != SecondInstrumentKind.Voice || line.Bars.IsEmpty)
            return;
        var starts = heard.Notes.GroupBy(n => Step(line, n.Onset)).OrderBy(g => g.Key).ToArray();
        for (var i = 0; i < starts.Length; i++)
        {
            var start = starts[i].Key;
            var section = sectionEnds.Select(e => e * grid).FirstOrDefault(e => e > start, start + 1);
            var next = i + 1 < starts.Length ? starts[i + 1].Key : int.MaxValue;
            var end = Math.Min(Step(line, starts[i].Max(n => n.End)), Math.Min(next, section));
            syllables.Add(new(start, Math.Max(start + 1, end), OnsetsRight * heard.Kind.Confidence * starts[i].Max(n => n.Confidence)));
        }
    }

    public ImmutableArray<Claim<string>> InBar(ProposedBar bar) =>
    [
        .. syllables.Where(s => s.Start >= bar.FirstBeat * grid && s.Start < bar.EndBeat * grid).Select(s => new Claim<string>(
            Beats.Fraction(s.Start - bar.FirstBeat * grid, grid), Beats.Fraction(s.End - s.Start, grid), "x", Standing.HeardToThePercent(s.Confidence))),
    ];

    private int Step(BeatLine line, Seconds time) => (int)Math.Round(line.PlaceOf(time.Value) * grid);
}
