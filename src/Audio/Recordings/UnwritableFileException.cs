namespace Harkbook.Audio.Recordings;

/// <summary>A file can't be written; the message says which, why and what to do. Nothing half-written stays behind.</summary>
public sealed class UnwritableFileException(string message, Exception? cause = null) : IOException(message, cause);
