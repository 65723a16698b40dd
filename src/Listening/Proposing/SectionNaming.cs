using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Form;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// What a heard section is, where singing and repetition tell: before the singer comes in an intro, after the last of it, or last and unlike all else, an
/// outro, unsung between two sung ones an interlude, or a solo where an instrument plays a line; of the sung ones the first kind that comes back is the
/// verse, the next the chorus, one that comes once between them the bridge, and one that always leads from the verse to the chorus and is no longer the
/// pre-chorus. Where it isn't clear whether one is sung, it is what its like is called. All else keeps its letter. How sure each word is is our judgement.
/// </summary>
internal sealed class SectionNaming
{
    /// <summary>So much of a solo a line sounds.</summary>
    private const double PlayedFrom = 0.4;

    /// <summary>How sure a word is that another section lends, of that one's own.</summary>
    private const double Lent = 0.8;

    private readonly ImmutableArray<HeardSection> sections;
    private readonly double[] sung, played;
    private readonly Dictionary<string, (string Word, double Sure)> kinds = [];

    public SectionNaming(ImmutableArray<HeardSection> sections, HeardLines lines)
    {
        this.sections = sections;
        var singer = lines.Of(LineKind.Voice) is { } voice && voice.Kind.Confidence >= SungEntry.SureOfSinger ? voice : null;
        sung = [.. sections.Select(s => Share(singer, s))];
        played = [.. sections.Select(s => lines.Found.Where(l => l.Kind.Best != LineKind.Voice).Select(l => Share(l, s)).DefaultIfEmpty(0).Max())];
        if (singer is not null)
            Repeated();
    }

    /// <summary>The word for a section, and how sure it is; null where nothing tells.</summary>
    public (string? Word, double Sure) Of(int section)
    {
        if (IsClear(section))
            return OfClear(section);
        var alike = Enumerable.Range(0, sections.Length).Where(s => sections[s].Label == sections[section].Label && IsClear(s)).Select(OfClear)
            .FirstOrDefault(w => w.Word is not null, (null, 1));
        return (alike.Word, alike.Word is null ? 1 : Lent * alike.Sure);
    }

    private bool IsClear(int section) => sung[section] is not (> SungEntry.Unsung and < SungEntry.Sung);

    private (string? Word, double Sure) OfClear(int section)
    {
        var (first, last) = (Array.FindIndex(sung, s => s >= SungEntry.Sung), Array.FindLastIndex(sung, s => s >= SungEntry.Sung));
        if (first < 0)
            return (null, 1);
        if (sung[section] >= SungEntry.Sung)
        {
            return kinds.TryGetValue(sections[section].Label, out var kind) ? kind
                : kinds.Count > 0 && section == sections.Length - 1 ? ("Outro", 0.6) : (null, 1);
        }
        return section < first ? ("Intro", 0.9) : section > last ? ("Outro", 0.9) : played[section] >= PlayedFrom ? ("Solo", 0.7) : ("Interlude", 0.7);
    }

    /// <summary>Which letters are verse, chorus and bridge: two kinds of sung sections that come back tell; one that does is the verse.</summary>
    private void Repeated()
    {
        var order = Enumerable.Range(0, sections.Length).Where(i => sung[i] >= SungEntry.Sung).GroupBy(i => sections[i].Label).ToArray();
        var back = order.Where(g => g.Count() > 1).ToArray();
        if (back.Length == 0)
            return;
        kinds[back[0].Key] = ("Verse", back.Length == 1 ? 0.6 : 0.7);
        var chorus = back.Length > 2 && Leads(back[1], back[2]) ? 2 : 1;
        if (chorus == 2)
            kinds[back[1].Key] = ("Pre-chorus", 0.6);
        if (back.Length > 1)
            kinds[back[chorus].Key] = ("Chorus", 0.7);
        var lastBack = back.Take(chorus + 1).Max(g => g.Last());
        if (order.Where(g => g.Count() == 1 && g.Single() > back[0].First() && g.Single() < lastBack).ToArray() is [var alone])
            kinds[alone.Key] = ("Bridge", 0.6);
    }

    /// <summary>Whether one kind always goes right before another, which comes nowhere else, and is no longer.</summary>
    private bool Leads(IEnumerable<int> one, IEnumerable<int> other) => one.Select(i => i + 1).SequenceEqual(other)
        && one.Zip(other).All(p => Length(p.First) <= Length(p.Second) + 1e-6);

    private double Length(int section) => (sections[section].End - sections[section].Start).Value;

    /// <summary>How much of a section a line sounds (0–1).</summary>
    private static double Share(HeardLine? line, HeardSection section) => line?.ShareOf(section.Start.Value, section.End.Value) ?? 0;
}
