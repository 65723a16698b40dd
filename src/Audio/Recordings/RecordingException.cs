namespace Harkbook.Audio.Recordings;

/// <summary>A sound file can't be used; the message says which, why and what to do, in words a player understands.</summary>
public sealed class RecordingException(string message, Exception? cause = null) : Exception(message, cause);
