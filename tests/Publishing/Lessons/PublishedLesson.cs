using System.Collections.Immutable;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Lessons;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>One lesson of four bars with everything in it, made once for the tests that look at its files.</summary>
public sealed class PublishedLesson : IAsyncLifetime
{
    public const double Length = 4.5;

    /// <summary>Where the second chord starts, and a click in the sound.</summary>
    public const double Change = 1.2;

    private readonly TemporaryFolder folder = new();

    public ImmutableArray<LessonFile> Files { get; private set; } = [];

    public string At(string name) => folder.At(Path.Combine("lesson", name));

    public async ValueTask InitializeAsync()
    {
        if (Ffmpeg.Find() is null)
            return;
        var sound = await LessonSongs.SoundAsync(folder.Path, Length, Change);
        var options = new PublishOptions(LessonParts.All, PaperSize.A4, new DateTime(2026, 1, 2));
        Files = await new LessonPublisher(LessonSongs.FourBars, sound, folder.At("lesson"), options, LessonSongs.StoreIn(folder))
            .PublishAsync(null, TestContext.Current.CancellationToken);
    }

    public ValueTask DisposeAsync()
    {
        folder.Dispose();
        return ValueTask.CompletedTask;
    }
}
