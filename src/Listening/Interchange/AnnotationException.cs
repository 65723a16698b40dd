namespace Harkbook.Listening.Interchange;

/// <summary>An annotation file can't be used; the message says which, where and what was expected.</summary>
public sealed class AnnotationException(string message, Exception? cause = null) : Exception(message, cause);
