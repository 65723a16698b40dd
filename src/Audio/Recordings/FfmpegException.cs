namespace Harkbook.Audio.Recordings;

/// <summary>ffmpeg is missing or failed; the message says what was being done, what ffmpeg said and what to do.</summary>
public sealed class FfmpegException(string message, Exception? cause = null) : IOException(message, cause);
