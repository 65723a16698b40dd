using Harkbook.Audio.Recordings.Formats;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Samples;

/// <summary>Gives the samples of a sound file block by block.</summary>
internal abstract class SampleSource : IAsyncDisposable
{
    public abstract SampleRate Rate { get; }

    public abstract int Channels { get; }

    /// <summary>In words: "WAV, 24-bit", "MP3".</summary>
    public abstract string Format { get; }

    /// <summary>The length of the sound: exact for plain samples, within a coder's padding (up to 0.05 s) for others.</summary>
    public abstract Task<Seconds> LengthAsync(CancellationToken cancellation);

    /// <summary>The next frames, channels interleaved; empty at the end. The memory holds until the next call.</summary>
    public abstract ValueTask<ReadOnlyMemory<float>> ReadAsync(CancellationToken cancellation);

    /// <summary>Throws when less sound came out than the file promises.</summary>
    public abstract void RequireWhole(Seconds read);

    public abstract ValueTask DisposeAsync();

    protected static RecordingException CutShort(string path, Seconds there, Seconds promised) => new(
        $"{path}: the file is cut short: {Words.Time(there)} of {Words.Time(promised)} can be read. {CopyAgain(path)}");

    public static string CopyAgain(string path) => $"Copy or download it again, or keep what is there: ffmpeg -i \"{path}\" part.wav";
}
