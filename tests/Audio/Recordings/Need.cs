using Harkbook.Audio.Recordings.Conversion;

namespace Harkbook.Audio.Tests.Recordings;

internal static class Need
{
    /// <summary>The installed ffmpeg; a test that needs one says so where there is none.</summary>
    public static Ffmpeg Ffmpeg()
    {
        var ffmpeg = Audio.Recordings.Conversion.Ffmpeg.Find();
        Assert.SkipWhen(ffmpeg is null, "ffmpeg isn't installed here, and this test decodes or encodes with it.");
        return ffmpeg!;
    }

    /// <summary>Runs ffmpeg to make a file for a test.</summary>
    public static async Task MakeAsync(params string[] arguments)
    {
        await using var process = Ffmpeg().Start(["-y", .. arguments], "Making a test file", TestContext.Current.CancellationToken);
        await process.FinishAsync();
    }
}
