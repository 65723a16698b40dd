using Harkbook.Music.Songs;
using Harkbook.Music.Analysis.Layers;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Tunes;

/// <summary>How the tune and the harmonica share the time where both are: one answers the other, or they go together.</summary>
internal static class AnswerRemarks
{
    private const int FewestNotes = 4;
    private const double Mostly = 0.7;

    public static IEnumerable<Remark> Of(Song song, PlayedTune tune)
    {
        var sections = tune.Notes.Select(n => n.Section).ToHashSet(ReferenceEqualityComparer.Instance);
        var starts = new LayerEvents(song).Bars().ToDictionary(b => b.Bar.Number, b => b.Start);
        var blown = song.Sections.Where(s => sections.Contains(s)).SelectMany(s => s.Bars)
            .SelectMany(b => b.Harp.DistinctBy(h => h.Start).Select(h => (Bar: b, Claim: h, Start: starts[b.Number] + h.Start))).ToList();
        if (blown.Count < FewestNotes)
            yield break;
        var answers = blown.Where(h => !tune.Notes.Any(n => n.Start <= h.Start && h.Start < n.End)).ToList();
        var share = (double)answers.Count / blown.Count;
        var who = tune.Who.ToLowerInvariant();
        var (inRests, others) = (Counted(answers.Count, blown.Count), Counted(blown.Count - answers.Count, blown.Count));
        var words = share >= Mostly ? $"The harmonica answers {who}: {inRests} notes beside it start where {who} rests"
            : share <= 1 - Mostly ? $"The harmonica goes along with {who}: {others} notes beside it start while {who} sounds"
            : $"The harmonica both answers {who} and goes along with it: {inRests} notes beside it start where {who} rests";
        yield return new(RemarkKind.TuneAnswered, words + ".",
            [new("starts in rests", $"{answers.Count} of {blown.Count}",
                "breaths of the harmonica that start while no note of the tune sounds, in sections with both")])
        {
            Places = [.. (share <= 1 - Mostly ? blown.Except(answers) : answers).Select(h => h.Bar).Distinct().Select(SongPlace.Of)],
        };
    }

    private static string Counted(int count, int all) => count == all ? $"all {NumberWords.Of(all)}" : $"{NumberWords.Of(count)} of its {NumberWords.Of(all)}";
}
