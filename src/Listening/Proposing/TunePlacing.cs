using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Lays the notes that a voice, whistle or fiddle was heard with on a grid of the beat, quarters of it, in a compound meter thirds: one tune, in each
/// section by who sounds longest there.
/// </summary>
internal sealed class TunePlacing
{
    private readonly RhythmGrid grid;
    private readonly Dictionary<LineKind, List<Placed>> lines = [];
    private readonly List<(PlannedSection Section, LineKind? By)> players = [];
    private readonly ImmutableArray<HeardLine> heard;

    /// <summary>From one place to another, in steps of the grid from the first bar's start.</summary>
    private readonly record struct Placed(int Start, int End, int Midi, double Confidence);

    /// <param name="sectionEnds">In beats from the first bar's start, rising.</param>
    public TunePlacing(HeardLines heard, BeatAxis line, bool isCompound, IReadOnlyCollection<int> sectionEnds, ImmutableArray<PlannedSection> plan)
    {
        grid = new(line, isCompound, sectionEnds);
        this.heard = line.Bars.IsEmpty ? [] : [.. heard.Found.Where(l => PlayerOf(l.Kind.Best) is not null)];
        foreach (var tune in this.heard)
            lines[tune.Kind.Best] = Place(tune);
        foreach (var section in plan)
        {
            var (first, end) = (line.Bars[section.FirstBar], line.Bars[section.EndBar - 1]);
            players.Add((section, lines.Keys.Select(k => (Kind: (LineKind?)k, Steps: Steps(k, first, end))).Where(k => k.Steps > 0)
                .OrderByDescending(k => k.Steps).FirstOrDefault().Kind));
        }
    }

    /// <summary>Who sings or plays most of it, as sure as that such a line was heard; null where nothing is written.</summary>
    public Fact<TunePlayer>? Player => MainKind is { } kind
        ? new(PlayerOf(kind)!.Value, Standing.HeardToThePercent(heard.First(l => l.Kind.Best == kind).Kind.Confidence)) : null;

    /// <summary>Who sings or plays it in a section, where that isn't the song's player.</summary>
    public TunePlayer? PlayerIn(PlannedSection section) =>
        players.FirstOrDefault(p => p.Section == section).By is { } by && by != MainKind ? PlayerOf(by) : null;

    /// <param name="index">Of the bar, from 0.</param>
    public ImmutableArray<Claim<TuneNote>> InBar(ProposedBar bar, int index, Key key) =>
        players.FirstOrDefault(p => index >= p.Section.FirstBar && index < p.Section.EndBar).By is not { } by ? []
            : [.. lines[by].Where(n => grid.IsIn(bar, n.Start)).Select(n => grid.Claim(bar, n.Start, n.End,
                new TuneNote(Pitch.FromMidi(n.Midi, key.Spell(n.Midi % 12))), n.Confidence))];

    private LineKind? MainKind => players.Where(p => p.By is not null).GroupBy(p => p.By).MaxBy(g => g.Sum(p => p.Section.EndBar - p.Section.FirstBar))?.Key;

    private static TunePlayer? PlayerOf(LineKind kind) => kind switch
    {
        LineKind.Voice => TunePlayer.Voice,
        LineKind.Whistle => TunePlayer.Whistle,
        LineKind.Bowed => TunePlayer.Fiddle,
        _ => null,
    };

    /// <summary>Of notes that come to start together the surest; each ends where the next begins.</summary>
    private List<Placed> Place(HeardLine tune)
    {
        var placed = tune.Notes.Where(n => n.Midi is >= 0 and <= 127).GroupBy(n => grid.Step(n.Onset))
            .OrderBy(g => g.Key).Select(g => g.MaxBy(n => n.Confidence)!)
            .Select(n => new Placed(grid.Step(n.Onset), grid.Step(n.End), n.Midi, n.Confidence * tune.Kind.Confidence)).ToList();
        for (var i = 0; i < placed.Count; i++)
            placed[i] = placed[i] with { End = grid.EndOf(placed[i].Start, placed[i].End, i + 1 < placed.Count ? placed[i + 1].Start : null) };
        return placed;
    }

    private int Steps(LineKind kind, ProposedBar first, ProposedBar end) =>
        lines[kind].Where(n => n.Start >= grid.StepOf(first.FirstBeat) && n.Start < grid.StepOf(end.EndBeat)).Sum(n => n.End - n.Start);
}
