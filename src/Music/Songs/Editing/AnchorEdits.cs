using Harkbook.Units;

namespace Harkbook.Music.Songs.Editing;

/// <summary>Ties a stretch of bars anew: the anchors that stood there go, and decided ones come in their place.</summary>
internal static class AnchorEdits
{
    /// <param name="firstBar">The stretch's first bar through the song.</param>
    /// <param name="lastBar">Its last; one past the song's last is the song's end.</param>
    /// <param name="anchors">Bars through the song, rising.</param>
    public static SongDocument Retied(SongDocument document, Song song, int firstBar, int lastBar, IReadOnlyList<(int Bar, Seconds At)> anchors)
    {
        var (edited, before, songEnd) = (document, 0, song.Bars.Count() + 1);
        for (var i = 0; i < song.Sections.Length; i++)
        {
            var (section, count) = (song.Sections[i], song.Sections[i].Bars.Length);
            var wanted = anchors.Where(a => a.Bar > before
                && (a.Bar <= before + count || (a.Bar == songEnd && before + count + 1 == songEnd))).Select(a => (a.Bar - before, a.At)).ToList();
            edited = InSection(edited, i, section, b => b + before >= firstBar && b + before <= lastBar, wanted);
            before += count;
        }
        return edited;
    }

    private static SongDocument InSection(SongDocument document, int index, Section section, Func<int, bool> isMeant, List<(int Bar, Seconds At)> wanted)
    {
        var gone = section.Anchors.Where(a => isMeant(a.Bar) && (a.Beat != Beats.Zero || wanted.All(w => w.Bar != a.Bar)));
        var edited = wanted.Aggregate(document, (d, w) => d.WithAnchor(index, w.Bar, w.At));
        edited = gone.Aggregate(edited, (d, a) => d.WithoutAnchor(index, a.Bar, a.Beat));
        return wanted.Count > 0 && section.Anchors.All(a => isMeant(a.Bar)) ? edited.WithDecidedAnchors(index) : edited;
    }
}
