using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Signals;

namespace Harkbook.App.Making;

/// <summary>Writes a sound in the format that its file's name asks for.</summary>
internal static class SoundFile
{
    public static Task WriteAsync(string path, ISound sound, CancellationToken ct)
    {
        if (AudioEncoder.FormatOf(path) is { } format)
            return AudioEncoder.WriteAsync(path, sound, format, ct);
        WaveFile.Write(path, sound);
        return Task.CompletedTask;
    }
}
