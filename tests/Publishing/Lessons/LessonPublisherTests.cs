using System.Buffers.Binary;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Lessons;
using Harkbook.Publishing.Lessons.Sounds;
using Harkbook.Units;
using UglyToad.PdfPig;

namespace Harkbook.Publishing.Tests.Lessons;

public sealed class LessonPublisherTests(PublishedLesson lesson) : IClassFixture<PublishedLesson>
{
    [Fact]
    public void EveryFileThatIsNamedIsThere()
    {
        Programs.NeedFfmpeg();
        Assert.All(lesson.Files, file => Assert.True(new FileInfo(file.Path).Length > 0, file.Path));
        string[] wanted = ["sheet.pdf", "sheet-1.png", "tab.svg", "chapters.vtt", "play-along.html", "play-along.mp4", "diagrams/G-over-D.svg",
            "diagrams/F#m7b5.png"];
        Assert.All(wanted, name => Assert.Contains(lesson.Files, f => f.Path == lesson.At(name)));
        Assert.Empty(Directory.GetFiles(lesson.At(""), ".*"));
    }

    /// <summary>PDF 1.7 (ISO 32000-1), 14.9.4: ActualText is what a reader finds where a name is set in several pieces.</summary>
    [Fact]
    public void TheSheetNamesEveryChord()
    {
        Programs.NeedFfmpeg();
        using var pdf = PdfDocument.Open(lesson.At("sheet.pdf"));
        var words = pdf.GetPages().SelectMany(p => p.GetWords().Select(w => w.Text).Concat(p.GetMarkedContents().Select(m => m.ActualText))).ToHashSet();
        Assert.All(LessonSongs.FourBars.Shapes, shape => Assert.Contains(shape.Name, words));
    }

    /// <summary>PNG (ISO/IEC 15948): eight signature bytes, then IHDR with width and height. A4 is 210 by 297 mm (ISO 216).</summary>
    [Fact]
    public void ThePictureOfThePageIsA4At150DotsAnInch()
    {
        Programs.NeedFfmpeg();
        var bytes = File.ReadAllBytes(lesson.At("sheet-1.png"));
        Assert.Equal([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], bytes[..8]);
        Assert.Equal(210 / 25.4 * 150, BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(16)), 1.5);
        Assert.Equal(297 / 25.4 * 150, BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(20)), 1.5);
    }

    [Fact]
    public async Task OnlyTheStepsThatAreDoneAreTold()
    {
        using var folder = new TemporaryFolder();
        var told = new List<string>();
        var options = new PublishOptions(LessonParts.Diagrams, PaperSize.A4, new DateTime(2026, 1, 2));
        await new LessonPublisher(LessonSongs.FourBars, null, folder.Path, options, LessonSongs.StoreIn(folder))
            .PublishAsync(new Steps(told), TestContext.Current.CancellationToken);
        Assert.Equal(["drawing diagrams"], told);
    }

    private sealed class Steps(List<string> told) : IProgress<Progress>
    {
        public void Report(Progress value) => told.Add(value.Step);
    }

    [Fact]
    public async Task WithoutASoundTheDrawingsAreMade()
    {
        using var folder = new TemporaryFolder();
        var options = new PublishOptions(LessonParts.All, PaperSize.A4, new DateTime(2026, 1, 2));
        var files = await new LessonPublisher(LessonSongs.FourBars, null, folder.Path, options, LessonSongs.StoreIn(folder))
            .PublishAsync(null, TestContext.Current.CancellationToken);
        Assert.Contains(files, f => f.Path.EndsWith("sheet.pdf", StringComparison.Ordinal));
        Assert.DoesNotContain(files, f => Path.GetExtension(f.Path) is ".mp4" or ".html" or ".vtt");
    }

    [Fact]
    public async Task TheSameSongOnTheSameDayGivesTheSameBytes()
    {
        using var one = new TemporaryFolder();
        using var other = new TemporaryFolder();
        var options = new PublishOptions(LessonParts.Sheet | LessonParts.Diagrams, PaperSize.A4, new DateTime(2026, 1, 2));
        var files = await new LessonPublisher(LessonSongs.FourBars, null, one.Path, options, LessonSongs.StoreIn(one))
            .PublishAsync(null, TestContext.Current.CancellationToken);
        await new LessonPublisher(LessonSongs.FourBars, null, other.Path, options, LessonSongs.StoreIn(other))
            .PublishAsync(null, TestContext.Current.CancellationToken);
        Assert.All(files, f => Assert.Equal(File.ReadAllBytes(f.Path), File.ReadAllBytes(other.At(Path.GetRelativePath(one.Path, f.Path)))));
    }

    [Fact]
    public async Task WhatNoPartNeedsIsntSounded()
    {
        using var folder = new TemporaryFolder();
        var sound = new LessonSound("never", Seconds.FromSeconds(4.5),
            _ => throw new InvalidOperationException("The song was sounded, and no part that was asked for is heard."));
        var options = new PublishOptions(LessonParts.All & ~(LessonParts.Page | LessonParts.Video), PaperSize.A4, new DateTime(2026, 1, 2));
        var files = await new LessonPublisher(LessonSongs.FourBars, sound, folder.At("lesson"), options, LessonSongs.StoreIn(folder))
            .PublishAsync(null, TestContext.Current.CancellationToken);
        Assert.Contains(files, f => f.Path.EndsWith("chapters.vtt", StringComparison.Ordinal));
    }

    [Fact]
    public async Task OlderPartsAreNamedWithTheirDay()
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(folder.At("diagrams"));
        string[] old = ["play-along.mp4", "sheet-7.png", "diagrams/Gone.svg", "my own notes.txt"];
        foreach (var name in old)
        {
            await File.WriteAllTextAsync(folder.At(name), "", TestContext.Current.CancellationToken);
            File.SetLastWriteTime(folder.At(name), new DateTime(2026, 3, 4, 12, 0, 0));
        }
        var options = new PublishOptions(LessonParts.Sheet, PaperSize.A4, new DateTime(2026, 1, 2));
        var files = await new LessonPublisher(LessonSongs.FourBars, null, folder.Path, options, LessonSongs.StoreIn(folder))
            .PublishAsync(null, TestContext.Current.CancellationToken);
        var left = OlderFiles.In(folder.Path, files);
        Assert.Equal(["diagrams/Gone.svg", "play-along.mp4", "sheet-7.png"],
            left.Select(l => Path.GetRelativePath(folder.Path, l.Path).Replace('\\', '/')).Order());
        Assert.All(left, l => Assert.Equal(new DateTime(2026, 3, 4), l.Written.Date));
    }
}
