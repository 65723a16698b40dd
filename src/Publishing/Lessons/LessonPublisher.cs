using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Harkbook.Audio.Recordings;
using Harkbook.Music.Analysis.Explaining;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Diagrams;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Engraving.Shelves;
using Harkbook.Publishing.Engraving.Tabs;
using Harkbook.Publishing.Lessons.Pieces;
using Harkbook.Publishing.Lessons.Sounds;
using Harkbook.Publishing.Lessons.Timing;
using Harkbook.Units;

namespace Harkbook.Publishing.Lessons;

/// <summary>What can be published of a song.</summary>
[Flags]
public enum LessonParts
{
    None = 0,
    Sheet = 1,
    Diagrams = 2,
    Tab = 4,
    Video = 8,
    Page = 16,
    Chapters = 32,
    Explanation = 64,
    All = Sheet | Diagrams | Tab | Video | Page | Chapters | Explanation,
}

/// <summary>How a lesson is published.</summary>
/// <param name="Date">Written into the sheet, so that the same song on the same day gives the same bytes.</param>
/// <param name="Only">The bars that sheet, diagrams, tab, page and video are made of; null for all.</param>
public sealed record PublishOptions(LessonParts Parts, PaperSize Paper, DateTime Date, Passage? Only = null);

/// <summary>A file of a lesson and what it is.</summary>
/// <param name="Kept">What of it wasn't made again, since what it is made from is as it was; empty where all is new.</param>
public sealed record LessonFile(string Path, string What, string Kept = "");

/// <summary>Makes a lesson's files from a song. Each file appears whole or not at all.</summary>
/// <param name="store">Keeps what is costly to make; a piece whose input is the same isn't made again.</param>
public sealed class LessonPublisher(Song song, LessonSound? sound, string folder, PublishOptions options, PieceStore store)
{
    private readonly Passage passage = options.Only ?? Passage.Whole(song);
    private readonly LessonTimeline timeline = new(song, options.Only ?? Passage.Whole(song), sound?.Start ?? default);
    private readonly Lazy<Explanation> explanation = new(() => Explanation.Of(song));
    private readonly ImmutableArray<LessonFile>.Builder written = ImmutableArray.CreateBuilder<LessonFile>();

    /// <exception cref="UnwritableFileException">The folder can't be written to or the disk is full.</exception>
    /// <exception cref="FfmpegException">The video was asked for and ffmpeg is missing or failed.</exception>
    public async Task<ImmutableArray<LessonFile>> PublishAsync(IProgress<Progress>? progress, CancellationToken ct)
    {
        Directory.CreateDirectory(folder);
        Do(LessonParts.Sheet, "drawing the sheet", 0, WriteSheet);
        Do(LessonParts.Diagrams, "drawing diagrams", 0.04, WriteDiagrams);
        Do(LessonParts.Tab, "drawing tab", 0.045, WriteTab);
        Do(LessonParts.Explanation, "explaining", 0.05, WriteExplanation);
        if (sound is null)
            return written.ToImmutable();
        Do(LessonParts.Chapters, "writing chapters", 0.055, WriteChapters);
        if (options.Parts.HasFlag(LessonParts.Page))
        {
            progress?.Report(new("making the play-along page", 0.06));
            await WritePageAsync(sound, ct);
        }
        if (options.Parts.HasFlag(LessonParts.Video))
            await WriteVideoAsync(sound, progress, ct);
        store.Thin();
        progress?.Report(new("done", 1));
        return written.ToImmutable();

        void Do(LessonParts part, string step, double done, Action write)
        {
            ct.ThrowIfCancellationRequested();
            if (!options.Parts.HasFlag(part))
                return;
            progress?.Report(new(step, done));
            write();
        }
    }

    private void WriteSheet()
    {
        var pages = BarSheet.Engrave(song, options.Paper, passage);
        Write("sheet.pdf", $"the song on {pages.Length} page{(pages.Length == 1 ? "" : "s")}",
            s => PdfWriter.Write(pages, s, Palette.Paper, song.Title, options.Date));
        for (var i = 0; i < pages.Length; i++)
        {
            var page = pages[i];
            Write(string.Create(CultureInfo.InvariantCulture, $"sheet-{i + 1}.png"), $"page {i + 1} as a picture",
                s => PngWriter.Write(page, s, Palette.Paper, 150 / 72.0));
        }
    }

    private void WriteDiagrams()
    {
        var shapes = passage.PartOf(song).Shapes;
        if (shapes.IsEmpty)
            return;
        Directory.CreateDirectory(Path.Combine(folder, "diagrams"));
        foreach (var shape in shapes)
        {
            var drawing = ChordDiagram.Engrave(ShapeShelf.Subject(song, shape), ChordDiagramStyle.Print);
            var called = CapoNames.Of(song)?.First(shape.Name) ?? shape.Name;
            var name = "diagrams/" + ChordFiles.NameOf(called);
            WriteText(name + ".svg", $"{called} as a drawing", SvgWriter.Write(drawing, Palette.Paper, SvgText.Outlines));
            Write(name + ".png", $"{called} as a picture", s => PngWriter.Write(drawing, s, Palette.Paper, 4));
        }
    }

    private void WriteTab()
    {
        var picked = song.Bars.Where(b => passage.Holds(b) && !b.Picked.IsEmpty).ToArray();
        if (picked.Length == 0)
            return;
        WriteText("tab.svg", "the picked bars as tab",
            SvgWriter.Write(TabBlock.Engrave(picked, new(song.Tuning.Value, song.Capo.Value), 540, song.Counting, CapoNames.Of(song)), Palette.Paper,
            SvgText.Outlines));
    }

    private void WriteExplanation()
    {
        if (ExplanationSheet.Engrave(explanation.Value, options.Paper) is { Length: > 0 } pages)
            Write("why.pdf", "why the song sounds so, with the facts behind it", s => PdfWriter.Write(pages, s, Palette.Paper, song.Title, options.Date));
    }

    private void WriteChapters()
    {
        WriteText("chapters.vtt", "sections as WebVTT chapters", Chapters.WebVtt(timeline, sound!.Length.Value));
        if (Chapters.Lines(timeline, sound.Length.Value) is { Length: > 0 } lines)
            WriteText("chapters.txt", "sections as lines for a video's description", lines);
    }

    private async Task WritePageAsync(LessonSound heard, CancellationToken ct)
    {
        var (bytes, type, kept) = await PageSound.ReadAsync(heard, store, ct);
        var page = PlayAlongPage.Write(timeline, bytes, type, heard.Length.Value, options.Parts.HasFlag(LessonParts.Explanation) ? explanation.Value : null);
        WriteText("play-along.html", "the play-along page, one file, no network needed", page, kept ? "its sound kept" : "");
    }

    private async Task WriteVideoAsync(LessonSound heard, IProgress<Progress>? progress, CancellationToken ct)
    {
        var share = Progress.Within(progress, "making the play-along video", 0.1, 1);
        var path = Path.Combine(folder, "play-along.mp4");
        var (kept, pieces) = await PlayAlongVideo.WriteAsync(timeline, heard, path, store, share, ct);
        written.Add(new(path, "the play-along video, 1920 × 1080", kept == 0 ? "" : kept == pieces ? "all of its pictures kept"
            : $"{kept} of the {pieces} pieces of its pictures kept"));
    }

    private void WriteText(string name, string what, string text, string kept = "") => Write(name, what, s => s.Write(Encoding.UTF8.GetBytes(text)), kept);

    private void Write(string name, string what, Action<Stream> write, string kept = "")
    {
        var path = Path.Combine(folder, name);
        AtomicFile.Write(path, write);
        written.Add(new(path, what, kept));
    }
}
