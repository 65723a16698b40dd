using Harkbook.Units;

namespace Harkbook.Audio.Recordings;

/// <summary>What is known of a sound file without holding its samples. The file is never changed.</summary>
/// <param name="ContentHash">SHA-256 of the file's bytes, 64 lower-case hexadecimal digits.</param>
/// <param name="Format">In words: "WAV, 24-bit", "MP3".</param>
public sealed record Recording(string Path, SampleRate Rate, int Channels, Seconds Length, string ContentHash, string Format);
