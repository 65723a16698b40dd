using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Recordings.Samples;

namespace Harkbook.Audio.Recordings.Reading;

internal static class SampleOpening
{
    /// <summary>Opens a file with the reader that knows it.</summary>
    /// <param name="ffmpeg">Null when it isn't installed.</param>
    public static async Task<SampleSource> OpenAsync(string path, Ffmpeg? ffmpeg, CancellationToken cancellation)
    {
        await using var stream = File.OpenRead(path);
        if (PcmHeader.Read(stream, path) is not null)
            return PcmSource.Open(path);
        if (ffmpeg is null)
            throw new RecordingException($"{path}: " + Ffmpeg.MissingFor("Reading a file that isn't WAV or AIFF"));
        if (OggEnd.IsCut(stream))
            throw new RecordingException($"{path}: the file is cut short: it ends in the middle of a page of sound. {SampleSource.CopyAgain(path)}");
        return new FfmpegSource(await FfmpegProbe.ReadAsync(ffmpeg, path, cancellation), ffmpeg, path);
    }
}
