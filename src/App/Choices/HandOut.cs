using Harkbook.App.Messages;
using Harkbook.Music.Analysis;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Lessons;

namespace Harkbook.App.Choices;

/// <summary>A part of a song to hand out, and what it is called: a section's name, or its bars.</summary>
internal sealed record HandOut(Passage Passage, string Name)
{
    /// <summary>What speaks of the whole song stays out of it.</summary>
    private const LessonParts WholeOnly = LessonParts.Explanation | LessonParts.Chapters;

    /// <summary>Null where no bars are asked for.</summary>
    public static HandOut? Of(Song song, (int First, int Last)? bars)
    {
        if (bars is not var (first, last))
            return null;
        var section = song.Sections.FirstOrDefault(s => !s.Bars.IsEmpty && s.Bars[0].Number == first && s.Bars[^1].Number == last);
        return new(Passage.Of(first, last), section?.Name ?? PlaceWords.Bars(first, last));
    }

    public static LessonParts PartsOf(LessonParts wanted) => (wanted & ~WholeOnly) is var parts and not LessonParts.None
        ? parts
        : throw new UsageException("--only: chapters and why speak of a whole song; a hand-out has sheet, diagrams, tab, video and page.");

    /// <summary>What is put behind the name of the lesson's folder.</summary>
    public string FolderEnd => "-" + FolderNames.Bars(Passage.First, Passage.Last);

    public Song Titled(Song song) => song with { Title = $"{song.Title}: {Name}" };
}
